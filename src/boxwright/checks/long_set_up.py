"""Setting up takes no longer than an evening has: one person's hour.

The seconds of each act are those of the set-up card: assumptions without a source, as is the
hour. Groups that play different printed sets are looked at set by set.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.plan import MINUTE
from boxwright.choose.edition import Edition
from boxwright.choose.gear import Gear
from boxwright.choose.setting_up import set_up
from boxwright.problems import Finding, Problem, Seconds

CODE = "time.set-up"
MOST_S = 60 * MINUTE


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where setting up takes one person longer."""
    took = sum(step.seconds for step in set_up(Gear(edition, about.folder)))
    if took > MOST_S:
        tables, whole = len(edition.groups), round(took / MINUTE)
        problem = Problem.of(CODE, about.where("game", "groups"), n=tables, minutes=whole)
        yield Finding(problem, "note", "estimated", Seconds(took, MOST_S))
