"""The game has an end that can be seen: an item that wins when it is reached."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "game.no-end"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix where nothing wins."""
    if not any(item.wins for item in edition.game.items.values()):
        problem = Problem.of(CODE, about.where("items"))
        yield Finding(problem, "fix", "computed", Count(0, 1))
