"""A box that stands in another fits into it; so does a real one into a real one.

Outer measures are not in the kit: a box that is as large inside as the one around it
cannot fit, and walls are taken to be at least a millimetre thick. Closer calls are for
the hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.model import KitFile
from boxwright.problems import Clash, Finding, Problem

CODE = "kit.box-in-box"
WALLS_MM = 2.0


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
    small, large = kit.boxes[inner].inside_mm, kit.boxes[outer].inside_mm
    if small is None or large is None:
        return
    pairs = zip(sorted(small), sorted(large), strict=True)
    if any(side + WALLS_MM > room for side, room in pairs):
        name, around = edition.game.name_of(id), edition.game.name_of(edition.game.boxes[id].place)
        where = about.where("boxes", id, "place")
        problem = Problem.of(CODE, where, name=name, around=around, inner=inner, outer=outer)
        yield Finding(problem, "stop", "computed", Clash((inner, outer), "room"))
