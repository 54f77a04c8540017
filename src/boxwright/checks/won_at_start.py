"""What wins the game is behind a lock; else the first glance round the room ends it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.reach import had
from boxwright.choose.edition import Edition
from boxwright.problems import Clash, Finding, Problem

CODE = "game.won-at-start"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each winning item that is had without a lock or a clue."""
    game = edition.game
    at_once = had(edition, about, without=[*game.locks, *game.clues])
    for id, item in game.items.items():
        if item.wins and id in at_once:
            problem = Problem.of(CODE, about.where("items", id, "place"), name=item.name, id=id)
            yield Finding(problem, "fix", "computed", Clash((id,), "start"))
