"""There is something to do for every pupil of a full group, most of the time.

A group of the most pupils that the game is for is looked at. A quarter of the time without
anything to do is too much: assumption, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Finding, Problem, Seconds
from boxwright.text import half_minutes

CODE = "time.waiting"
MOST_IDLE = 0.25


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where pupils have nothing to do for too long."""
    pupils = edition.game.pupils[1]
    told = about.forecast(edition, pupils=pupils)
    if told is None or told.idle is None or told.idle <= MOST_IDLE:
        return
    whole = told.finish.p50 or 0.0
    idle = told.idle * whole
    problem = Problem.of(
        CODE,
        about.where("game", "pupils"),
        n=pupils,
        idle=half_minutes(idle),
        whole=half_minutes(whole),
    )
    yield Finding(problem, "note", "estimated", Seconds(round(idle), round(MOST_IDLE * whole)))
