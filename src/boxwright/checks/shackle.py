"""Every hanging lock goes through the hole of its box, and every hole takes one lock.

A shackle goes through if the hole is at least half a millimetre wider than it is thick.
Where the kit gives no measures, that has to be tried by hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.hardware import make_of
from boxwright.game.model import KitFile
from boxwright.problems import Count, Finding, Problem

CODE = "kit.shackle"
PLAY_MM = 0.5
TENTHS = 10


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each lock whose shackle is too thick for the hole of its box."""
    kit = about.folder.kit
    for stickers in edition.stickers.values() if kit is not None else ():
        for id, lock in edition.game.locks.items():
            pair = stickers.get(id), stickers.get(lock.closes)
            if kit is not None and pair[0] in kit.locks and pair[1] in kit.boxes:
                yield from _held_against(about, kit, id, str(pair[0]), str(pair[1]))


def _held_against(about: About, kit: KitFile, id: str, tag: str, box_tag: str) -> Iterator[Finding]:
    box, shackle = kit.boxes[box_tag], make_of(kit, tag).shackle_mm
    if box.own_lock == tag or shackle is None or box.hasp_hole_mm is None:
        return
    thick, hole = shackle[0], box.hasp_hole_mm
    if hole + 1e-9 < thick + PLAY_MM:
        problem = Problem.of(
            CODE,
            about.where("locks", id, "closes"),
            tag=tag,
            box=box_tag,
            thick=f"{thick:g}",
            hole=f"{hole:g}",
        )
        tenths = Count(round(hole * TENTHS), round((thick + PLAY_MM) * TENTHS))
        yield Finding(problem, "stop", "computed", tenths)
