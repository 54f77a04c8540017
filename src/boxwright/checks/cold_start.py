"""A group opens its first lock soon: what begins well is kept up.

By minute eight for nine groups in ten: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Finding, Problem, Seconds
from boxwright.text import half_minutes

CODE = "time.cold-start"
SOON_S = 8 * 60


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where one group in ten waits longer for its first lock."""
    told = about.forecast(edition)
    late = None if told is None else told.first_lock.p90
    if late is None or late <= SOON_S:
        return
    need, aim = half_minutes(late), half_minutes(SOON_S)
    problem = Problem.of(CODE, about.where("clues"), need=need, aim=aim)
    yield Finding(problem, "note", "estimated", Seconds(ceil(late), SOON_S))
