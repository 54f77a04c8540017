"""Real locks and boxes held against what a game wants of them."""

from __future__ import annotations

from boxwright.game.arranged import ArrangedBox, ArrangedLock
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, device_of, merged
from boxwright.game.model import KitBox, KitFile, KitLock

WALL_MM = 1.0


def wanted_device(folder: Folder, id: str, lock: ArrangedLock) -> Device:
    """Return the lock that the game wants."""
    return device_of(lock.shape, folder.where("game.toml", ("locks", id)))


def real_device(folder: Folder, tag: str) -> Device:
    """Return the lock with the sticker `tag`; KeyError without such a lock."""
    kit = folder.kit
    if kit is None:
        raise KeyError(tag)
    lock = kit.locks[tag]
    return device_of(
        lock,
        folder.where("kit.toml", ("locks", tag)),
        model=kit.models.get(lock.model) if lock.model else None,
        model_where=folder.where("kit.toml", ("models", lock.model or "")),
    )


def make_of(kit: KitFile, tag: str) -> KitLock:
    """Return all that is known of the lock with the sticker `tag`, its model's part too."""
    lock = kit.locks[tag]
    return merged(kit.models.get(lock.model) if lock.model else None, lock)


def roomy(box: KitBox, wanted: ArrangedBox) -> bool:
    """Tell whether a box is as large as wanted, turned as one likes; unmeasured boxes pass."""
    if box.inside_mm is None or wanted.inside_mm is None:
        return True
    pairs = zip(sorted(box.inside_mm), sorted(wanted.inside_mm), strict=True)
    return all(have >= need for have, need in pairs)


def goes_into(inner: KitBox, outer: KitBox) -> bool:
    """Tell whether one box can stand in another; unmeasured boxes pass.

    Outer measures are not known: walls are taken to be a millimetre thick at least, so a
    close call is for the hand.
    """
    if inner.inside_mm is None or outer.inside_mm is None:
        return True
    pairs = zip(sorted(inner.inside_mm), sorted(outer.inside_mm), strict=True)
    return all(side + 2 * WALL_MM <= room for side, room in pairs)


def meets(lock: ArrangedLock, wanted: Device, real: Device) -> bool:
    """Tell whether the lock `real` is what the game wants, as far as the game says."""
    return (
        lock.mechanism == real.mechanism
        and (lock.wheels is None or lock.wheels == real.longest)
        and (lock.faces is None or _holds_faces(wanted, real))
        and (lock.numbers is None or real.positions[0] == wanted.positions[0])
        and (lock.moves is None or len(real.faces) >= lock.moves)
        and (lock.order_matters is None or lock.order_matters == real.order_matters)
        and (lock.mechanism == "key" or lock.length is None or _overlap(wanted, real))
    )


def _overlap(wanted: Device, real: Device) -> bool:
    return real.shortest <= wanted.longest and wanted.shortest <= real.longest


def _holds_faces(wanted: Device, real: Device) -> bool:
    if wanted.longest != real.longest:
        return False
    pairs = zip(wanted.positions, real.positions, strict=True)
    return all(set(have) >= set(need) for need, have in pairs)
