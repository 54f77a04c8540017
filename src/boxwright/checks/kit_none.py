"""There is a kit: without one, nothing that is said of locks and boxes is about real ones."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem, Where

CODE = "kit.none"
LEADS = True
"""Shown before all that is as grave, since it says how much the others are worth."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield one finding where no kit stands in the folder and none was named."""
    locks = len(edition.game.locks)
    if about.folder.kit is None and locks:
        problem = Problem.of(CODE, Where("kit.toml"), n=locks)
        yield Finding(problem, "fix", "computed", Count(0, locks))
