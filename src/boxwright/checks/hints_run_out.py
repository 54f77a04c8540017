"""Hints do not run out where more of them would let more groups finish in time."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.game.hinting import LINES, hints_allowed
from boxwright.problems import Count, Finding, Problem

CODE = "time.hints"
LEAST_GAIN = 0.05
"""So many more of all groups must finish for it to matter. Assumption, no source."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where more hints would help, with what nine groups of ten ask for."""
    allowed, told = hints_allowed(edition.game), about.forecast(edition)
    if told is None or told.one.value > 1 - LEAST_GAIN:
        return
    plenty = about.forecast(edition, hints=LINES * len(edition.game.clues))
    if plenty is None or plenty.one.value < told.one.value + LEAST_GAIN:
        return
    need = plenty.hints_asked
    edit = change(about, "game", "hints", to=need)
    problem = Problem.of(CODE, about.where("game", "hints"), edit=edit, have=allowed, need=need)
    yield Finding(problem, "note", "estimated", Count(allowed, need))
