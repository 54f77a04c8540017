"""All shelves of a studio: every real lock that a game's kit tells of, with its lock-book leaf."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from boxwright.game.draft import KIT
from boxwright.game.one_lock import lock_of_kit, read_kit
from boxwright.ledger.lock_book import Book, LockRecord
from boxwright.ledger.real_locks import RealLock
from boxwright.problems import Problem, Refused, Where
from boxwright.web.studio import Studio


@dataclass(slots=True)
class Shelf:
    """One kit by its id; several games may share it.

    `faults` say what of it cannot be read; where that is all of it, it has no id.
    """

    kit: str
    name: str
    locks: dict[str, RealLock] = field(default_factory=dict)
    faults: list[Problem] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Leaf:
    """One lock of the book: what it is like, as far as a kit tells, and what is known of it."""

    shelf: Shelf
    lock: RealLock | None
    record: LockRecord

    @property
    def state(self) -> str:
        """What can be said of it, in a word."""
        record, lock = self.record, self.lock
        if record.code is not None:
            return "fixed" if lock is not None and lock.fixed is not None else "set"
        if record.meant is not None:
            return "lost"
        return "keyed" if lock is not None and lock.keyed else "unknown"

    @property
    def at_rest(self) -> str | None:
        """The code that it rests at, says its kit, where nobody set it to another."""
        shelf = None if self.lock is None else self.lock.device.shelf
        return self.lock.written(shelf) if self.lock and shelf else None


def leaves(studio: Studio, book: Book) -> Iterator[tuple[Shelf, tuple[Leaf, ...]]]:
    """Yield each shelf with its locks; those of the book that stand on none come last."""
    found = shelves(studio)
    for kit, _ in sorted(book):
        found.setdefault(kit, Shelf(kit, kit))
    for shelf in (one for one in found.values() if one.kit):
        known = [tag for kit, tag in sorted(book) if kit == shelf.kit and tag not in shelf.locks]
        yield shelf, tuple(_leaf(shelf, tag, book) for tag in (*shelf.locks, *known))


def faults(studio: Studio) -> tuple[Problem, ...]:
    """Return what cannot be read of the kits."""
    return tuple(fault for shelf in shelves(studio).values() for fault in shelf.faults)


def leaf_of(studio: Studio, book: Book, kit: str, tag: str) -> Leaf | None:
    """Return the leaf of one lock; None where neither a shelf nor the book knows it."""
    shelf = shelves(studio).get(kit, Shelf(kit, kit))
    known = tag in shelf.locks or (kit, tag) in book
    return _leaf(shelf, tag, book) if known else None


def _leaf(shelf: Shelf, tag: str, book: Book) -> Leaf:
    lock = shelf.locks.get(tag)
    blank = book.get((shelf.kit, tag), LockRecord(shelf.kit, tag))
    return Leaf(shelf, lock, blank if lock is None else lock.record(book))


def shelves(studio: Studio) -> dict[str, Shelf]:
    """Return all shelves by their kits' ids; of two games' word on one lock, the later counts."""
    files = [file for name in studio.names() if (file := studio.games / name / KIT).is_file()]
    found: dict[str, Shelf] = {}
    for file in sorted(files, key=lambda file: file.stat().st_mtime_ns, reverse=True):
        read = _read(studio, file)
        shelf = found.setdefault(read.kit, Shelf(read.kit, read.name))
        shelf.locks |= {tag: lock for tag, lock in read.locks.items() if tag not in shelf.locks}
        shelf.faults += read.faults
    return found


def _read(studio: Studio, file: Path) -> Shelf:
    stat = file.stat()
    key = ("shelf", file, stat.st_mtime_ns, stat.st_size)
    return studio.memory.recall(key, lambda: _shelf(file))


def _shelf(path: Path) -> Shelf:
    try:
        file, kit = read_kit(path)
    except Refused as refused:
        return Shelf("", path.parent.name, faults=list(refused.problems))
    shelf = Shelf(kit.kit.id, kit.kit.name)
    for tag in kit.locks:
        try:
            shelf.locks[tag] = RealLock(shelf.kit, tag, *lock_of_kit(file, kit, tag, Where(tag)))
        except Refused as refused:
            shelf.faults += refused.problems
    return shelf
