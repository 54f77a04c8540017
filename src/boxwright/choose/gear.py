"""The real things of an edition, group by group: what closes, what is locked how, in which order.

Everything that setting up must know of hardware and that neither the game nor the kit
says in one place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from boxwright.choose.edition import Edition
from boxwright.choose.fitting import ENVELOPE, devices_of, is_envelope
from boxwright.choose.hardware import make_of
from boxwright.choose.piles import pieces
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device
from boxwright.game.model import START, TABLE, KitLock
from boxwright.problems import Message, say


@dataclass(frozen=True)
class Gear:
    """An edition with the folder that its hardware stands in."""

    edition: Edition
    folder: Folder

    @cached_property
    def devices(self) -> Mapping[str, Mapping[str, Device]]:
        """What each lock can show, for each group."""
        edition = self.edition
        return {
            group: devices_of(self.folder, edition.game, edition.stickers[group])
            for group in edition.groups
        }

    def sticker(self, group: str, id: str) -> str | None:
        """Return the sticker of a group's box, lock or item; None where it has none."""
        return self.edition.stickers[group].get(id)

    def label(self, group: str, id: str) -> str | Message:
        """Return what stands on the sticker of a group's thing; empty where it has none."""
        tag = self.sticker(group, id) or ""
        if not is_envelope(tag):
            return tag
        return say("step.envelope", number=tag.removeprefix(ENVELOPE))

    def envelope(self, group: str, lock: str) -> bool:
        """Tell whether a sealed envelope stands in for a group's lock."""
        return is_envelope(self.sticker(group, lock))

    def paper_box(self, group: str, box: str) -> bool:
        """Tell whether envelopes alone close a group's box: then they hold its content."""
        locks = list(self.on(box))
        return bool(locks) and all(self.envelope(group, lock) for lock in locks)

    def make(self, group: str, lock: str) -> KitLock | None:
        """Return what the kit knows of a group's lock; None without a real one."""
        kit, tag = self.folder.kit, self.sticker(group, lock)
        return make_of(kit, tag) if kit is not None and tag in kit.locks else None

    def built_in(self, group: str, lock: str) -> bool:
        """Tell whether a lock is part of its box, so that it cannot be taken off."""
        box = self.edition.game.locks[lock].closes
        if not self.edition.game.boxes[box].own_lock:
            return False
        kit, tag = self.folder.kit, self.sticker(group, box)
        if kit is not None and tag in kit.boxes:
            return kit.boxes[tag].own_lock == self.sticker(group, lock)
        return next(self.on(box)) == lock

    def keeps_key(self, group: str, lock: str) -> bool:
        """Tell whether a lock holds its key fast while it is open."""
        make = self.make(group, lock)
        return bool(make and make.keeps_key_open) and self.key(lock) is not None

    def key(self, lock: str) -> str | None:
        """Return the item that opens a lock."""
        return self.edition.game.locks[lock].opened_by

    def spare(self, group: str, lock: str) -> bool:
        """Tell whether there is another key for a group's lock."""
        kit, tag = self.folder.kit, self.sticker(group, self.key(lock) or "")
        return kit is not None and tag in kit.keys and kit.keys[tag].copies > 1

    def on(self, box: str) -> Iterator[str]:
        """Yield the locks that close a box."""
        return (id for id, lock in self.edition.game.locks.items() if lock.closes == box)

    @cached_property
    def closing(self) -> tuple[str, ...]:
        """All boxes in an order in which they can be closed.

        A box before the one it lies in; a box with a key before the one that the key goes
        into, since some locks need it for closing, and some hold it fast until they close.
        Where that is impossible, the order of the game.
        """
        before = {box: set(self._first(box)) for box in self.edition.game.boxes}
        found: list[str] = []
        while len(found) < len(before):
            left = [box for box in before if box not in found]
            ready = (box for box in left if before[box] <= set(found))
            found.append(next(ready, left[0]))
        return tuple(found)

    @property
    def hiding(self) -> tuple[str, ...]:
        """The places of the room where something is put, in the room's order."""
        game, room = self.edition.game, self.folder.room
        used = [box.place for box in game.boxes.values()]
        used += [item.place for item in game.items.values()]
        used += [piece.place for piece in pieces(self.edition)]
        outside = dict.fromkeys(one for one in used if one not in (*game.boxes, TABLE, START))
        known = () if room is None else tuple(room.places)
        return tuple(sorted(outside, key=lambda one: known.index(one) if one in known else -1))

    def _first(self, box: str) -> Iterator[str]:
        """Yield the boxes that must be closed before `box`."""
        game = self.edition.game
        yield from (id for id, one in game.boxes.items() if one.place == box and id != box)
        for lock in game.locks.values():
            key = game.items.get(lock.opened_by or "")
            if key is not None and key.place == box and lock.closes != box:
                yield lock.closes
