"""A box that is opened has something in it: an item, a sheet, or another box."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "box.empty"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each box in which nothing lies."""
    game = edition.game
    filled = {box.place for box in game.boxes.values()}
    filled |= {item.place for item in game.items.values()}
    filled |= {place for sheet in edition.sheets.values() for place in sheet.parts.values()}
    for id, box in game.boxes.items():
        if id not in filled:
            problem = Problem.of(CODE, about.where("boxes", id), name=box.name, id=id)
            yield Finding(problem, "fix", "computed", Count(0, 1))
