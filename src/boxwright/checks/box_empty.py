"""A box that is opened has something in it: an item, a sheet, or another box."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.other_places import lying
from boxwright.checks.remedies import taken_out
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "box.empty"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each box in which nothing lies."""
    filled = {one.place for one in lying(edition)}
    for id, box in edition.game.boxes.items():
        if id not in filled:
            where, edit = about.where("boxes", id), taken_out(about, "boxes", id)
            problem = Problem.of(CODE, where, edit=edit, name=box.name, id=id)
            yield Finding(problem, "fix", "computed", Count(0, 1))
