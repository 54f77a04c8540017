"""What `boxwright locks` writes and shows: the book of all locks, and the leaf of one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from boxwright.cli.lock_sections import Asked, Section, lost, table
from boxwright.frozen import frozen_value
from boxwright.game.model import KitFile
from boxwright.game.one_lock import lock_of_kit, read_kit
from boxwright.game.toml_file import TomlFile
from boxwright.ledger.event import new_id, wall_here
from boxwright.ledger.lock_book import Book, LockEvent, LockEventType, LockRecord, read, record
from boxwright.ledger.real_locks import RealLock
from boxwright.ledger.store import Ledger
from boxwright.live.clock import SystemClock
from boxwright.messages import words
from boxwright.problems import Arg, Problem, Where, refuse, say

TAG = Where("TAG")
TRIES = 40
"""How many codes of the list to search are shown."""


@frozen_value
class Act:
    """Something that was done to a lock, the code and the game that go with it."""

    type: LockEventType
    code: str | None = None
    game: str | None = None

    @property
    def option(self) -> str:
        """The option that says so."""
        return f"--{self.type.removeprefix('lock.')}"


@frozen_value
class _Lock:
    """A lock that was named; what it is like is known with its kit only."""

    kit: str
    tag: str
    real: RealLock | None

    def record(self, book: Book) -> LockRecord:
        """Return what is known of it."""
        if self.real is not None:
            return self.real.record(book)
        return book.get((self.kit, self.tag), LockRecord(self.kit, self.tag))


def _told(id: str, /, **args: Arg) -> str:
    return words(say(f"locks.{id}", **args))


# all locks


def every_lock(ledger: Ledger, kit: Path | None) -> Section:
    """Return what each lock of a kit is set to, or each lock that the book knows."""
    locks, book = () if kit is None else _locks(kit), read(ledger)
    of_kit = [lock.record(book) for lock in locks]  # in its own order, fixed ones as they are
    records = [book[key] for key in sorted(book)] if kit is None else of_kit
    if not records:
        empty = _told("empty" if kit is None else "empty-kit")
        return Section("locks", {"locks": []}, (empty,))
    heads = tuple(_told(f"head-{name}") for name in ("tag", "code", "game", "since", "checked"))
    keyed = {lock.tag for lock in locks if lock.keyed}
    rows = [heads, *(_row(one, keyed=one.tag in keyed) for one in records)]
    return Section("locks", {"locks": [_json(one) for one in records]}, table(rows))


def _locks(kit: Path) -> tuple[RealLock, ...]:
    file, found = read_kit(kit)
    return tuple(_real(file, found, tag) for tag in found.locks)


def _real(file: TomlFile, kit: KitFile, tag: str) -> RealLock:
    return RealLock(kit.kit.id, tag, *lock_of_kit(file, kit, tag, TAG))


def _row(one: LockRecord, *, keyed: bool) -> tuple[str, ...]:
    none = _told("none")
    code = one.code or _told("with-key" if keyed else "not-known")
    return one.tag, code, one.game or none, _local(one.since) or none, _local(one.checked) or none


def _local(wall: str | None) -> str:
    return "" if wall is None else wall_here(wall)


def _json(one: LockRecord) -> dict[str, Any]:
    return {
        "kit": one.kit,
        "tag": one.tag,
        "code": one.code,
        "meant": one.meant,
        "game": one.game,
        "since": one.since,
        "checked": one.checked,
        "battery": one.battery,
    }


# one lock


def one_lock(ledger: Ledger, kit: Path | None, tag: str, act: Act | None) -> Section:
    """Write down what was done to a lock, if anything, and return all that is known of it."""
    lock = _lock(read(ledger), kit, tag.upper())
    if act is not None:
        record(ledger, _event(lock, act))
    found = lock.record(read(ledger))
    lines = [_now(found), *map(_happened, found.history)]
    events = [_event_json(event) for event in found.history]
    facts: dict[str, Any] = {"lock": _json(found), "history": events}
    if found.meant is not None and not found.known:
        search = _search(lock, found)
        lines += ["", *search.lines]
        facts["lost"] = search.json
    return Section("lock", facts, tuple(lines))


def _lock(book: Book, kit: Path | None, tag: str) -> _Lock:
    """Return the lock that a sticker names: in a kit, or in the book alone."""
    if kit is not None:
        file, found = read_kit(kit)
        return _Lock(found.kit.id, tag, _real(file, found, tag))
    kits = tuple(owner for owner, sticker in book if sticker == tag)
    if not kits:
        choices = tuple(sorted({sticker for _, sticker in book}))
        code = "locks.unknown" if choices else "locks.no-book"
        refuse(Problem.of(code, TAG, tag=tag, choices=choices))
    if len(kits) > 1:
        refuse(Problem.of("locks.which-kit", TAG, tag=tag, kits=kits))
    return _Lock(kits[0], tag, None)


def _event(lock: _Lock, act: Act) -> LockEvent:
    now = SystemClock().now()
    code = None if act.code is None else _code(lock, act)
    return LockEvent(new_id(now.wall_ms), lock.kit, lock.tag, act.type, now.wall, code, act.game)


def _code(lock: _Lock, act: Act) -> str:
    """Return the code in its written form; raises Refused where the lock cannot have it."""
    where = Where(act.option)
    if lock.real is None:
        refuse(Problem.of("locks.needs-kit", where, tag=lock.tag, option=act.option))
    return lock.real.settable(act.code or "", where)


def _now(found: LockRecord) -> str:
    """Say what the lock is set to."""
    if found.code is None:
        return _told("now-not-known", tag=found.tag)
    return _told("now", tag=found.tag, code=found.code)


def _search(lock: _Lock, found: LockRecord) -> Section:
    """Return what to try on a lock whose code is lost, as far as it is known what it is like."""
    real = lock.real
    if real is None:
        return Section("lost", None, (_told("search-kit", tag=lock.tag),))
    earlier = real.earlier(found)
    return lost(Asked(real.make, real.device, code_text=found.meant, earlier=earlier), TRIES)


def _happened(event: LockEvent) -> str:
    """Say what was done to the lock, and when."""
    game = event.game or say("locks.none")
    name = event.type.removeprefix("lock.")
    return _told(f"did-{name}", at=_local(event.wall), code=event.code or "", game=game)


def _event_json(event: LockEvent) -> dict[str, Any]:
    return {"type": event.type, "wall": event.wall, "code": event.code, "game": event.game}
