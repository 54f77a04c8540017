"""Every hanging lock goes through the hole of its box.

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
ROUNDING_MM = 1e-9
TENTHS = 10

Pair = tuple[str, str, str]
"""A lock of the game, its sticker, and the sticker of its box."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each shackle that is too thick, and one note for all unmeasured ones."""
    kit = about.folder.kit
    if kit is None:
        return
    pairs = tuple(_hanging(edition, kit))
    for lock, tag, box in pairs:
        yield from _held_against(about, kit, (lock, tag, box))
    unmeasured = [one for one in pairs if not _measured(kit, one)]
    if unmeasured:
        first, *rest = dict.fromkeys(about.where("locks", lock) for lock, _, _ in unmeasured)
        tags = tuple(dict.fromkeys(tag for _, tag, _ in unmeasured))
        problem = Problem.of(f"{CODE}-by-hand", first, tags=tags, n=len(tags))
        evidence = Count(len(pairs) - len(unmeasured), len(pairs))
        yield Finding(problem, "note", "try by hand", evidence, also=tuple(rest))


def _hanging(edition: Edition, kit: KitFile) -> Iterator[Pair]:
    """Yield each real lock that hangs on a real box, for every group."""
    for stickers in edition.stickers.values():
        for id, lock in edition.game.locks.items():
            tag, box = stickers.get(id, ""), stickers.get(lock.closes, "")
            if tag in kit.locks and box in kit.boxes and kit.boxes[box].own_lock != tag:
                yield id, tag, box


def _measured(kit: KitFile, pair: Pair) -> bool:
    _, tag, box = pair
    return make_of(kit, tag).shackle_mm is not None and kit.boxes[box].hasp_hole_mm is not None


def _held_against(about: About, kit: KitFile, pair: Pair) -> Iterator[Finding]:
    id, tag, box = pair
    shackle, hole = make_of(kit, tag).shackle_mm, kit.boxes[box].hasp_hole_mm
    if shackle is None or hole is None or hole + ROUNDING_MM >= shackle[0] + PLAY_MM:
        return
    problem = Problem.of(
        CODE,
        about.where("locks", id, "closes"),
        tag=tag,
        box=box,
        thick=f"{shackle[0]:g}",
        hole=f"{hole:g}",
        least=f"{shackle[0] + PLAY_MM:g}",
    )
    tenths = Count(round(hole * TENTHS), round((shackle[0] + PLAY_MM) * TENTHS))
    yield Finding(problem, "stop", "computed", tenths)
