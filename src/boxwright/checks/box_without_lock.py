"""A box that no lock closes stands open from the start, whatever lies in it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.remedies import taken_out
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "box.without-lock"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each box that nothing closes."""
    closed = {lock.closes for lock in edition.game.locks.values()}
    for id, box in edition.game.boxes.items():
        if id not in closed:
            where, edit = about.where("boxes", id), taken_out(about, "boxes", id)
            problem = Problem.of(CODE, where, edit=edit, name=box.name, id=id)
            yield Finding(problem, "fix", "computed", Count(0, 1))
