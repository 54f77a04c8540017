"""There are as many hints as nine groups of ten would ask for."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.game.hinting import LINES, hints_allowed
from boxwright.problems import Count, Finding, Problem

CODE = "time.hints"
SELDOM = 0.1
"""In a game of ten hints may run out."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where hints run out too often, with the number that would do."""
    allowed, told = hints_allowed(edition.game), about.forecast(edition)
    if told is None or (allowed and told.no_hint_left <= SELDOM):
        return
    plenty = about.forecast(edition, hints=LINES * len(edition.game.clues))
    if plenty is None or plenty.hints_asked <= allowed:
        return
    need = plenty.hints_asked
    edit = change(about, "game", "hints", to=need)
    problem = Problem.of(CODE, about.where("game", "hints"), edit=edit, have=allowed, need=need)
    yield Finding(problem, "note", "computed", Count(allowed, need))
