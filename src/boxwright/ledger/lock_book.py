"""The lock book: what each lock is set to, since when, for which game.

A second stream of events, by the lock's kit and sticker, and a fold over it. Nobody looks
into a lock: what the book knows is what hands told it. A code that is lost is not known, but
what it was meant to be stays, since a search begins there.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal, get_args

from sqlalchemy import Connection, insert, select

from boxwright.ledger.store import Ledger
from boxwright.ledger.tables import LOCK_EVENTS
from boxwright.text import canonical_json

LockEventType = Literal[
    "lock.set", "lock.checked", "lock.lost", "lock.found", "lock.battery", "lock.undone"
]
TYPES: tuple[LockEventType, ...] = get_args(LockEventType)
WITH_CODE: frozenset[LockEventType] = frozenset({"lock.set", "lock.found"})


@dataclass(frozen=True, slots=True)
class LockEvent:
    """One thing done to a lock: set, checked by opening it, lost, found, given a battery.

    `code`, in the lock's written form, goes with setting and finding; `game` is what it was set
    for, as far as that is known of a code that was found. `wall` is an instant in RFC 3339. What
    `undone` names by its id counts as never happened: somebody ticked the wrong line.
    """

    id: str
    kit: str
    tag: str
    type: LockEventType
    wall: str
    code: str | None = None
    game: str | None = None
    undone: str | None = None


@dataclass(frozen=True, slots=True)
class LockRecord:
    """What the book holds of one lock.

    `meant` is the code it was last known to have, `known` whether it still counts; `since`,
    `checked` and `battery` are instants; `history` is all that was done and not undone, oldest
    first.
    """

    kit: str
    tag: str
    meant: str | None = None
    known: bool = False
    since: str | None = None
    game: str | None = None
    checked: str | None = None
    battery: str | None = None
    history: tuple[LockEvent, ...] = ()

    @property
    def code(self) -> str | None:
        """What opens it; None where that is not known."""
        return self.meant if self.known else None

    @property
    def earlier(self) -> tuple[str, ...]:
        """Other codes that it had before, the last one first, each once."""
        codes = (event.code for event in reversed(self.history) if event.code is not None)
        return tuple(dict.fromkeys(code for code in codes if code != self.meant))


Book = Mapping[tuple[str, str], LockRecord]
"""What is known of each lock, by its kit's id and its sticker."""


def fold(events: Iterable[LockEvent]) -> Book:
    """Return the book that `events`, in their order, make."""
    stream = tuple(events)
    undone = {event.undone for event in stream}
    book: dict[tuple[str, str], LockRecord] = {}
    for event in stream:
        if event.type != "lock.undone" and event.id not in undone:
            key = (event.kit, event.tag)
            book[key] = after(book.get(key, LockRecord(*key)), event)
    return book


def after(record: LockRecord, event: LockEvent) -> LockRecord:
    """Return what is known of a lock after one more thing was done to it."""
    return replace(_done(record, event), history=(*record.history, event))


def _done(record: LockRecord, event: LockEvent) -> LockRecord:
    match event.type:
        case "lock.set":
            return replace(
                record,
                meant=event.code,
                known=True,
                since=event.wall,
                game=event.game,
                checked=None,
            )
        case "lock.found":
            return replace(
                record,
                meant=event.code,
                known=True,
                since=event.wall,
                game=event.game or record.game,
                checked=event.wall,
            )
        case "lock.checked":
            return replace(record, known=record.meant is not None, checked=event.wall)
        case "lock.lost":
            return replace(record, known=False, checked=None)
        case "lock.battery":
            return replace(record, battery=event.wall)
        case _:
            return record


def record(ledger: Ledger, event: LockEvent) -> LockEvent:
    """Write `event` into the ledger's lock book, once; the first one of its id comes back."""
    fields = {"code": event.code, "game": event.game, "undone": event.undone}
    data = canonical_json({name: value for name, value in fields.items() if value is not None})
    head = {name: getattr(event, name) for name in ("id", "kit", "tag", "type", "wall")}

    def work(connection: Connection) -> LockEvent:
        wanted = select(LOCK_EVENTS).where(LOCK_EVENTS.c.id == event.id)
        first = connection.execute(wanted).mappings().first()
        if first is not None:
            return _event(first)
        connection.execute(insert(LOCK_EVENTS).values(head | {"data": data}))
        return event

    return ledger.writing(work)


def read(ledger: Ledger) -> Book:
    """Return the lock book as it stands."""

    def work(connection: Connection) -> Book:
        rows = connection.execute(select(LOCK_EVENTS).order_by(LOCK_EVENTS.c.seq)).mappings()
        return fold(map(_event, rows))

    return ledger.reading(work)


def _event(row: Mapping[Any, Any]) -> LockEvent:
    head = {name: row[name] for name in ("id", "kit", "tag", "type", "wall")}
    return LockEvent(**head, **json.loads(row["data"]))
