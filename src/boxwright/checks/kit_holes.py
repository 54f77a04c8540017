"""Every lock that hangs on a box has a hole of its own there.

Fitting sees to it; what was fitted may have been changed in the kit since.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.model import KitFile
from boxwright.problems import Count, Finding, Problem

CODE = "kit.holes"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each box with more locks to hang on it than holes."""
    kit = about.folder.kit
    for stickers in edition.stickers.values() if kit is not None else ():
        for id in edition.game.boxes:
            if kit is not None and stickers.get(id) in kit.boxes:
                yield from _held(edition, about, kit, id, stickers)


def _held(
    edition: Edition, about: About, kit: KitFile, id: str, stickers: Mapping[str, str]
) -> Iterator[Finding]:
    tag = stickers[id]
    box, game = kit.boxes[tag], edition.game
    mine = (stickers.get(lock, "") for lock, one in game.locks.items() if one.closes == id)
    hang = [one for one in mine if one in kit.locks and one != box.own_lock]
    if len(hang) > box.hasp_holes:
        problem = Problem.of(
            CODE,
            about.where("boxes", id),
            name=game.name_of(id),
            box=tag,
            locks=tuple(hang),
            holes=box.hasp_holes,
            n=len(hang),
        )
        yield Finding(problem, "stop", "computed", Count(box.hasp_holes, len(hang)))
