"""A game's wishes paired with the hardware on the shelf: the first that will do, in file order.

A lock is wanted as the game says and found as the kit says; every group gets its own.
Locks that are told to have faults are taken last. Where a lock may be stood in for, a
sealed envelope with a sticker takes its place: the teacher opens it on the right code.
What finds no partner is left without a sticker, and a check says for how many groups
the shelf does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from boxwright.choose.codes import can_have, named_codes
from boxwright.choose.hardware import goes_into, make_of, meets, real_device, roomy, wanted_device
from boxwright.frozen import frozen_value
from boxwright.game.arranged import (
    Arranged,
    ArrangedBox,
    ArrangedGame,
    ArrangedLock,
    boxes_around,
)
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, entry
from boxwright.game.model import KitFile

ENVELOPE = "ENV"  # and a number: the sticker of a sealed envelope

Stickers = Mapping[str, Mapping[str, str]]
"""For each group, the sticker of each box, lock and item by its id."""


@frozen_value
class Fitted:
    """Who gets what, and what each group's locks can show.

    Without a kit there are no stickers, and a lock is what the game wants it to be; so
    it is too where none was found, and for an envelope.
    """

    stickers: Stickers
    devices: Mapping[str, Mapping[str, Device]]


def fit(folder: Folder, arranged: Arranged) -> Fitted:
    """Pair every group's game with the folder's kit, the first group first."""
    games = {group: arranged.of(group) for group in arranged.groups}
    stickers: dict[str, dict[str, str]] = {}
    if folder.kit is not None:
        shelf = _Shelf(folder, folder.kit)
        takings = {group: _Taking(shelf, game) for group, game in games.items()}
        # Paper can take the place of some locks, so the others go first, for every group.
        for taking in takings.values():
            taking.take_what_must_be_real()
        for taking in takings.values():
            taking.take_the_rest()
        stickers = {group: taking.stickers() for group, taking in takings.items()}
    devices = {
        group: devices_of(folder, game, stickers.get(group, {})) for group, game in games.items()
    }
    return Fitted(stickers, devices)


def devices_of(
    folder: Folder, game: ArrangedGame, stickers: Mapping[str, str]
) -> dict[str, Device]:
    """Return what each lock of one group can show: the real lock's codes, if there is one."""
    real = folder.kit.locks if folder.kit is not None else {}
    return {
        id: real_device(folder, stickers[id])
        if stickers.get(id) in real
        else wanted_device(folder, id, lock)
        for id, lock in game.locks.items()
    }


def is_envelope(sticker: str | None) -> bool:
    """Tell whether a lock's sticker stands on a sealed envelope."""
    return sticker is not None and sticker.startswith(ENVELOPE)


class _Shelf:
    """What is on the shelf, and what was taken from it."""

    def __init__(self, folder: Folder, kit: KitFile) -> None:
        self.folder, self.kit = folder, kit
        self.devices = {tag: real_device(folder, tag) for tag in kit.locks}
        self.taken: set[str] = set()
        self.built_in = {box.own_lock for box in kit.boxes.values() if box.own_lock}

    def hanging_locks(self) -> Iterator[str]:
        """Yield free locks that belong to no box, those with faults last."""
        free = [tag for tag in self.kit.locks if tag not in self.built_in | self.taken]
        yield from sorted(free, key=lambda tag: make_of(self.kit, tag).faults is not None)

    def envelope(self) -> str | None:
        """Return the sticker of a fresh envelope, if one is left."""
        used = sum(map(is_envelope, self.taken))
        if used >= self.kit.stand_ins.envelopes:
            return None
        return f"{ENVELOPE}{used + 1}"


class _Taking:
    """One group's share of the shelf."""

    def __init__(self, shelf: _Shelf, game: ArrangedGame) -> None:
        self.shelf, self.game, self.kit = shelf, game, shelf.kit
        self.got: dict[str, str] = {}

    def take_what_must_be_real(self) -> None:
        """Take boxes with locks of their own, and every lock that no paper may stand in for."""
        for id, box in self.game.boxes.items():
            if box.own_lock:
                choices = self.boxes_for(box, 0)
                self.take(id, (tag for tag in choices if self.closes_well(id, tag)))
        for id, lock in self.game.locks.items():
            if lock.stand_in == "never":
                self.take_lock(id, lock)

    def take_the_rest(self) -> None:
        """Take the other locks, or paper in their place, then boxes, then tools."""
        for id, lock in self.game.locks.items():
            if id not in self.got:
                self.take_lock(id, lock)
        for id in self.outer_first():
            box = self.game.boxes[id]
            if not (box.own_lock or self.is_all_paper(id)):
                choices = self.boxes_for(box, self.hanging(id))
                self.take(id, (tag for tag in choices if self.fits_its_place(id, tag)))
        for id, item in self.game.items.items():
            if item.tool is not None:
                tools = (tag for tag, tool in self.kit.tools.items() if tool.is_ == item.tool)
                self.take(id, tools)

    def stickers(self) -> dict[str, str]:
        """Return what was taken, in the game's order; ids that go without are left out."""
        ids = (*self.game.boxes, *self.game.locks, *self.game.items)
        return {id: self.got[id] for id in ids if id in self.got}

    def outer_first(self) -> list[str]:
        """Return the boxes, each after the one that it stands in."""
        depths = {id: len(boxes_around(self.game, id)) for id in self.game.boxes}
        return sorted(depths, key=depths.__getitem__)

    def fits_its_place(self, id: str, tag: str) -> bool:
        """Whether a real box goes into the real box that it is to stand in, if it is known."""
        outer = self.got.get(self.game.boxes[id].place)
        return outer is None or goes_into(self.kit.boxes[tag], self.kit.boxes[outer])

    def is_all_paper(self, id: str) -> bool:
        """Whether envelopes close a box alone: then they hold its content themselves."""
        mine = [lock for lock, one in self.game.locks.items() if one.closes == id]
        return bool(mine) and all(is_envelope(self.got.get(lock)) for lock in mine)

    def take(self, id: str, choices: Iterator[str]) -> None:
        """Take the first free one of `choices` for `id`, if there is one."""
        tag = next((tag for tag in choices if tag not in self.shelf.taken), None)
        if tag is not None and id not in self.got:
            self.got[id] = tag
            self.shelf.taken.add(tag)

    def boxes_for(self, wanted: ArrangedBox, holes: int) -> Iterator[str]:
        """Yield the boxes that are as wanted and take so many locks."""
        for tag, box in self.kit.boxes.items():
            same = (box.own_lock is not None) == wanted.own_lock
            if same and box.hasp_holes >= holes and roomy(box, wanted):
                yield tag

    def closes_well(self, id: str, tag: str) -> bool:
        """Whether a real box's own lock is as the game wants one of that box's locks."""
        own = self.kit.boxes[tag].own_lock
        folder, locks = self.shelf.folder, self.game.locks.items()
        return own is not None and any(
            self.will_do(lock, wanted_device(folder, lock_id, lock), own)
            for lock_id, lock in locks
            if lock.closes == id
        )

    def hanging(self, id: str) -> int:
        """Count the locks that must hang on a box; envelopes hang on nothing."""
        mine = [lock for lock, one in self.game.locks.items() if one.closes == id]
        envelopes = sum(is_envelope(self.got.get(lock)) for lock in mine)
        return max((self.game.boxes[id].locks or 0) - envelopes, len(mine) - envelopes)

    def take_lock(self, id: str, lock: ArrangedLock) -> None:
        """Take a lock, the key that opens it, or an envelope in its place."""
        wanted = wanted_device(self.shelf.folder, id, lock)
        likely = [tag for tag in self.locks_for(lock) if self.will_do(lock, wanted, tag)]
        likely.sort(key=lambda tag: not self.shows_some(id, lock, tag))
        if likely:
            self.take(id, iter(likely[:1]))
            key = self.key_for(lock, likely[0])
            if lock.opened_by is not None and key is not None:
                self.take(lock.opened_by, iter((key,)))
        elif lock.stand_in == "allowed" and lock.mechanism != "key":
            envelope = self.shelf.envelope()
            self.take(id, iter((envelope,) if envelope else ()))

    def locks_for(self, lock: ArrangedLock) -> Iterator[str]:
        """Yield the one that is part of the lock's box, or all that hang."""
        box = self.kit.boxes.get(self.got.get(lock.closes, ""))
        own = box.own_lock if box is not None else None
        if self.game.boxes[lock.closes].own_lock and own not in self.shelf.taken:
            yield from (own,) if own else ()
        else:
            yield from self.shelf.hanging_locks()

    def will_do(self, lock: ArrangedLock, wanted: Device, tag: str) -> bool:
        """Whether a real lock is as wanted; one with a key must have its key there."""
        if not meets(lock, wanted, self.shelf.devices[tag]):
            return False
        return lock.mechanism != "key" or self.key_for(lock, tag) is not None

    def key_for(self, lock: ArrangedLock, tag: str) -> str | None:
        """Return the key of a lock; a key that the group has already stays the same key."""
        had = self.got.get(lock.opened_by or "")
        keys = [key for key, one in self.kit.keys.items() if tag in one.opens]
        if had is not None:
            return had if had in keys else None
        return next((key for key in keys if key not in self.shelf.taken), None)

    def shows_some(self, id: str, lock: ArrangedLock, tag: str) -> bool:
        """Whether a real lock can have one of the codes that the game gives, if it gives any."""
        device = self.shelf.devices[tag]
        if entry(device).alphabet(device) is None:
            return True
        where = self.shelf.folder.where("game.toml", ("locks", id, "code"))
        named = named_codes(device, lock.code, where)
        return not named or any(can_have(device, code) for code in named)


def lacking(game: ArrangedGame, stickers: Mapping[str, str]) -> tuple[str, ...]:
    """Return the boxes, locks, keys and tools that a group goes without.

    A box whose locks are all stood in for by envelopes is not missed: they hold its content.
    """
    hung = {lock.closes for id, lock in game.locks.items() if not is_envelope(stickers.get(id))}
    boxes = [id for id in game.boxes if id in hung or game.boxes[id].own_lock]
    keys = {lock.opened_by for lock in game.locks.values()}
    items = [id for id, item in game.items.items() if item.tool is not None or id in keys]
    return tuple(id for id in (*boxes, *game.locks, *items) if id not in stickers)
