"""A box that stands in another fits into it; so does a real one into a real one.

Outer measures are not in the kit, so closer calls than the walls are for the hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.hardware import goes_into
from boxwright.game.model import KitFile
from boxwright.problems import Clash, Finding, Problem

CODE = "kit.box-in-box"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each box that is too large for the box that it stands in."""
    kit = about.folder.kit
    for stickers in edition.stickers.values() if kit is not None else ():
        for id, box in edition.game.boxes.items():
            inner, outer = stickers.get(id), stickers.get(box.place)
            if kit is not None and inner in kit.boxes and outer in kit.boxes:
                yield from _held(edition, about, kit, id, str(inner), str(outer))


def _held(
    edition: Edition, about: About, kit: KitFile, id: str, inner: str, outer: str
) -> Iterator[Finding]:
    if not goes_into(kit.boxes[inner], kit.boxes[outer]):
        name, around = edition.game.name_of(id), edition.game.name_of(edition.game.boxes[id].place)
        where = about.where("boxes", id, "place")
        problem = Problem.of(CODE, where, name=name, around=around, inner=inner, outer=outer)
        yield Finding(problem, "stop", "computed", Clash((inner, outer), "room"))
