"""A step is done, or was not after all: into the session, and what it says of a lock into the book.

A tap comes under an id of its page's, and again if its page heard no answer: then it counts once,
and what the first time did not reach the lock book does so now.
"""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import dataclass, replace

from boxwright.choose.steps import Act
from boxwright.game.mechanisms import entry
from boxwright.ledger.event import Event, new_id
from boxwright.ledger.lock_book import Book, LockEvent, LockEventType, read, record
from boxwright.live.checklist import Box, Checklist
from boxwright.live.desk import Desk
from boxwright.live.drafts import Draft
from boxwright.live.events import List
from boxwright.live.folding import moment
from boxwright.live.noted import Deed

LOCK_ACTS: frozenset[Act] = frozenset({"set", "test"})
_ONE_AT_A_TIME = threading.Lock()


@dataclass(frozen=True, slots=True)
class Tap:
    """One tap: its page's id for it, the device, and how long ago it was, at most 0."""

    id: str
    device: str
    happened_ms: int = 0

    def draft(self, kind: str, **data: str) -> Draft:
        """Return what it says."""
        return Draft(kind, data, self.id, self.device, "teacher", self.happened_ms)


def tick(desk: Desk, session: str, todo: Checklist, id: str, tap: Tap) -> None:
    """Note that a box is ticked; nothing new where it was already. KeyError for no box of it."""
    box = todo.boxes[id]
    with _ONE_AT_A_TIME:
        if id not in ticked(desk, session, todo.list):
            desk.take(session, tap.draft("step.ticked", list=todo.list, step=id))
        done = ticked(desk, session, todo.list).get(id)
        if done is not None and done.event == tap.id:
            _into_the_book(desk, box, _event(desk, session, tap.id))


def untick(desk: Desk, session: str, todo: Checklist, id: str, tap: Tap) -> None:
    """Note that a box was ticked by mistake; nothing new where it is not ticked."""
    box = todo.boxes[id]
    with _ONE_AT_A_TIME:
        known = _event(desk, session, tap.id)
        if known is None:
            # Where two programs ticked it at the same moment, there are two ticks to take back.
            while (done := ticked(desk, session, todo.list).get(id)) is not None:
                taken = desk.take(session, tap.draft("undone", event=done.event))
                _out_of_the_book(desk, box, taken.event)
                tap = Tap(new_id(desk.clock.now().wall_ms), tap.device, tap.happened_ms)
        elif known.type == "undone":
            _out_of_the_book(desk, box, known)


def ticked(desk: Desk, session: str, name: List) -> Mapping[str, Deed]:
    """Return the boxes of a list that are ticked."""
    return desk.state(session).ticked.get(name, {})


def _event(desk: Desk, session: str, id: str) -> Event | None:
    return next((one for one in desk.events(session) if one.id == id), None)


@dataclass(frozen=True, slots=True)
class _Lock:
    """A real lock that a step sets or tests; `code` is None where it cannot be set."""

    kit: str
    tag: str
    act: Act
    code: str | None
    game: str

    def noted(self, event: Event, book: Book) -> LockEvent | None:
        """Return what its step says; a code that works counts, whoever set it."""
        note = LockEvent(event.id, self.kit, self.tag, "lock.checked", moment(event).wall)
        known = book.get((self.kit, self.tag))
        if self.act == "test" and (self.code is None or (known and known.code == self.code)):
            return note
        if self.code is None:
            return None
        kind: LockEventType = "lock.set" if self.act == "set" else "lock.found"
        return replace(note, type=kind, code=self.code, game=self.game)

    def undone(self, event: Event) -> LockEvent:
        """Return that it never happened."""
        head = LockEvent(event.id, self.kit, self.tag, "lock.undone", moment(event).wall)
        return replace(head, undone=event.data["event"])


def _lock_of(box: Box) -> _Lock | None:
    gear, lock, group = box.gear, box.step.thing, box.tick.groups[0]
    kit, tag = gear.folder.kit, gear.sticker(group, lock)
    if box.step.act not in LOCK_ACTS or kit is None or tag not in kit.locks:
        return None
    device, code = gear.devices[group][lock], gear.edition.codes.get(lock)
    settable = code is not None and device.fixed is None
    written = entry(device).write(device, code) if code is not None and settable else None
    return _Lock(kit.kit.id, tag, box.step.act, written, gear.edition.game.id)


def _into_the_book(desk: Desk, box: Box, event: Event | None) -> None:
    lock = _lock_of(box)
    if lock is not None and event is not None:
        note = lock.noted(event, read(desk.ledger))
        if note is not None:
            record(desk.ledger, note)


def _out_of_the_book(desk: Desk, box: Box, event: Event | None) -> None:
    lock = _lock_of(box)
    if lock is not None and event is not None:
        record(desk.ledger, lock.undone(event))
