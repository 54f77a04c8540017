"""A game's wishes paired with the hardware on the shelf: the first that will do, in file order.

A lock is wanted as the game says and found as the kit says. Locks that are told to have
faults are taken last. What cannot be paired is a Problem that says what the shelf has.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from boxwright.choose.codes import can_have, named_codes
from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedBox, ArrangedGame, ArrangedLock
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, device_of, entry, merged
from boxwright.game.model import KitBox, KitFile, KitLock
from boxwright.problems import Arg, Problem, Refused, say


@dataclass(frozen=True, slots=True)
class Fitted:
    """The stickers of boxes, locks and items by their ids, and what each lock's codes are.

    Without a kit there are no stickers, and a lock is what the game wants it to be.
    """

    stickers: Mapping[str, str]
    devices: Mapping[str, Device]


def wanted_device(folder: Folder, id: str, lock: ArrangedLock) -> Device:
    """Return the lock that the game wants."""
    return device_of(lock.shape, folder.where("game.toml", ("locks", id)))


def real_device(folder: Folder, tag: str) -> Device:
    """Return the lock with the sticker `tag`; KeyError without such a lock."""
    kit = _kit(folder)
    lock = kit.locks[tag]
    model = kit.models.get(lock.model) if lock.model else None
    return device_of(
        lock,
        folder.where("kit.toml", ("locks", tag)),
        model=model,
        model_where=folder.where("kit.toml", ("models", lock.model or "")),
    )


def _kit(folder: Folder) -> KitFile:
    if folder.kit is None:
        raise KeyError("no kit")
    return folder.kit


def fit(folder: Folder, game: ArrangedGame) -> Fitted:
    """Pair `game` with the folder's kit; raises Refused with all that finds no partner."""
    wanted = {id: wanted_device(folder, id, lock) for id, lock in game.locks.items()}
    if folder.kit is None:
        return Fitted({}, wanted)
    shelf = _Shelf(folder, folder.kit)
    shelf.take_boxes(game)
    shelf.take_locks(game, wanted)
    shelf.take_tools(game)
    if shelf.problems:
        raise Refused(shelf.problems)
    devices = {id: shelf.devices[shelf.stickers[id]] for id in game.locks}
    return Fitted(shelf.stickers, devices)


class _Shelf:
    """What is left on the shelf while a game takes from it."""

    def __init__(self, folder: Folder, kit: KitFile) -> None:
        self.folder, self.kit = folder, kit
        self.devices = {tag: real_device(folder, tag) for tag in kit.locks}
        self.stickers: dict[str, str] = {}
        self.problems: list[Problem] = []
        self.built_in = {box.own_lock: tag for tag, box in kit.boxes.items() if box.own_lock}

    def take_boxes(self, game: ArrangedGame) -> None:
        """Take a box for each of the game's; those with a lock of their own go first."""
        for id, box in sorted(game.boxes.items(), key=lambda pair: not pair[1].own_lock):
            hanging = sum(lock.closes == id for lock in game.locks.values()) - box.own_lock
            need = max(box.locks or 0, hanging)
            tag = next(self._boxes_for(box, need), None)
            if tag is None:
                self._lacks("box", ("boxes", id), id, tuple(self.kit.boxes), n=need)
            else:
                self.stickers[id] = tag

    def _boxes_for(self, wanted: ArrangedBox, need: int) -> Iterator[str]:
        for tag, box in self.kit.boxes.items():
            if tag in self.stickers.values() or (box.own_lock is not None) != wanted.own_lock:
                continue
            if box.hasp_holes >= need and _holds(box, wanted):
                yield tag

    def take_locks(self, game: ArrangedGame, wanted: Mapping[str, Device]) -> None:
        """Take a lock for each of the game's, and the key that opens it."""
        own = self._own_locks(game)
        for id, lock in sorted(game.locks.items(), key=lambda pair: pair[0] not in own):
            choices = [own[id]] if id in own else self._hanging_locks()
            likely = [t for t in choices if self._will_do(lock, wanted[id], t)]
            tag = min(likely, key=lambda t: not self._shows_some(id, lock, t), default=None)
            if tag is None:
                kind = say(f"mechanism.name-{lock.mechanism}")
                self._lacks("lock", ("locks", id), id, tuple(self.kit.locks), kind=kind)
            else:
                self.stickers[id] = tag
                self._take_key(lock, tag)

    def _own_locks(self, game: ArrangedGame) -> dict[str, str]:
        """Return the real lock for each lock that is part of its box."""
        found: dict[str, str] = {}
        for id, lock in game.locks.items():
            box = self.kit.boxes.get(self.stickers.get(lock.closes, ""))
            if box is not None and box.own_lock and box.own_lock not in found.values():
                same = self.devices[box.own_lock].mechanism == lock.mechanism
                if same and game.boxes[lock.closes].own_lock:
                    found[id] = box.own_lock
        return found

    def _hanging_locks(self) -> list[str]:
        free = (tag for tag in self.kit.locks if tag not in self.built_in)
        return sorted(free, key=lambda tag: _make(self.kit, tag).faults is not None)

    def _will_do(self, lock: ArrangedLock, wanted: Device, tag: str) -> bool:
        if tag in self.stickers.values() or not meets(lock, wanted, self.devices[tag]):
            return False
        return lock.mechanism != "key" or self._key_for(lock, tag) is not None

    def _shows_some(self, id: str, lock: ArrangedLock, tag: str) -> bool:
        """Whether a real lock can have one of the codes that the game gives, if it gives any."""
        device = self.devices[tag]
        if entry(device).alphabet(device) is None:
            return True
        where = self.folder.where("game.toml", ("locks", id, "code"))
        named = named_codes(device, lock.code, where)
        return not named or any(can_have(device, code) for code in named)

    def _key_for(self, lock: ArrangedLock, tag: str) -> str | None:
        """Return the sticker of the key for a lock; a key taken before stays the same key."""
        taken = self.stickers.get(lock.opened_by or "")
        keys = [key for key, one in self.kit.keys.items() if tag in one.opens]
        if taken is not None:
            return taken if taken in keys else None
        return next((key for key in keys if key not in self.stickers.values()), None)

    def _take_key(self, lock: ArrangedLock, tag: str) -> None:
        key = self._key_for(lock, tag)
        if lock.opened_by is not None and key is not None:
            self.stickers[lock.opened_by] = key

    def take_tools(self, game: ArrangedGame) -> None:
        """Take a tool for each item that is one."""
        for id, item in game.items.items():
            if item.tool is None:
                continue
            tools = (tag for tag, tool in self.kit.tools.items() if tool.is_ == item.tool)
            tag = next((tag for tag in tools if tag not in self.stickers.values()), None)
            if tag is None:
                self._lacks("tool", ("items", id), id, tuple(self.kit.tools), tool=item.tool)
            else:
                self.stickers[id] = tag

    def _lacks(
        self, sort: str, path: tuple[str, str], id: str, has: tuple[str, ...], **args: Arg
    ) -> None:
        where = self.folder.where("game.toml", path)
        choices: tuple[Arg, ...] = has or (say("fit.nothing"),)
        kit = self.kit.kit.name
        about: dict[str, Arg] = {"id": id, "kit": kit, "choices": choices, **args}
        self.problems.append(Problem.of(f"fit.no-{sort}", where, edit=None, **about))


def _make(kit: KitFile, tag: str) -> KitLock:
    lock = kit.locks[tag]
    return merged(kit.models.get(lock.model) if lock.model else None, lock)


def _holds(box: KitBox, wanted: ArrangedBox) -> bool:
    """Whether a box is as large as wanted, turned as one likes; unmeasured boxes pass."""
    if box.inside_mm is None or wanted.inside_mm is None:
        return True
    pairs = zip(sorted(box.inside_mm), sorted(wanted.inside_mm), strict=True)
    return all(have >= need for have, need in pairs)


def meets(lock: ArrangedLock, wanted: Device, real: Device) -> bool:
    """Tell whether the lock `real` is what the game wants, as far as the game says.

    A code that the game gives must be one that the lock can have: of a list of words,
    one is enough. A real lock that cannot be set is taken as it is.
    """
    if lock.mechanism != real.mechanism:
        return False
    if lock.wheels is not None and lock.wheels != real.longest:
        return False
    if lock.faces is not None and not _faces_held(wanted, real):
        return False
    if lock.numbers is not None and real.positions[0] != wanted.positions[0]:
        return False
    if lock.moves is not None and len(real.faces) < lock.moves:
        return False
    if lock.order_matters is not None and lock.order_matters != real.order_matters:
        return False
    overlaps = real.shortest <= wanted.longest and wanted.shortest <= real.longest
    return lock.mechanism == "key" or lock.length is None or overlaps


def _faces_held(wanted: Device, real: Device) -> bool:
    if wanted.longest != real.longest:
        return False
    pairs = zip(wanted.positions, real.positions, strict=True)
    return all(set(have) >= set(need) for need, have in pairs)


def devices_of(folder: Folder, edition: Edition) -> dict[str, Device]:
    """Return what each lock of an edition can show: the real lock by its sticker, if known."""
    kit = folder.kit.locks if folder.kit is not None else {}
    return {
        id: real_device(folder, edition.stickers[id])
        if edition.stickers.get(id) in kit
        else wanted_device(folder, id, lock)
        for id, lock in edition.game.locks.items()
    }
