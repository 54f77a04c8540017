"""Where a game's history lies: `.history/`, with a log of records and the bytes they name.

The log grows at its end only, one JSON object a line; a line cut short is taken off again.
Bytes lie under their SHA-256, so that nothing is kept twice.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path as File

from boxwright.game.file_lock import held
from boxwright.game.history_log import Past, Record, after, shortened
from boxwright.game.write import replace_file

HOME = ".history"
MOST_ENTRIES = 200
MOST_BYTES = 50_000_000
MOST_LINES = 2_000
Stamp = tuple[int, int, int]


class Store:
    """The folder `.history/` of one game; all but `stamp` is for whoever holds it."""

    def __init__(self, folder: File) -> None:
        self.home = folder / HOME
        self.log = self.home / "log.jsonl"
        self.blobs = self.home / "blobs"

    @contextmanager
    def held(self) -> Iterator[None]:
        """Keep all others out meanwhile."""
        self.blobs.mkdir(parents=True, exist_ok=True)
        with held(self.home / "lock"):
            yield

    def stamp(self) -> Stamp | None:
        """Return what tells cheaply whether the log has changed; None where there is none."""
        try:
            about = self.log.stat()
        except OSError:
            return None
        return about.st_mtime_ns, about.st_size, about.st_ino

    def read(self) -> Past | None:
        """Return what the log adds up to; None where there is none that can be understood.

        A last line that was cut short is taken off the file; one that was spoilt otherwise
        is put aside with its file, so that a history can begin anew.
        """
        try:
            lines = self.log.read_bytes().split(b"\n")
        except FileNotFoundError:
            return None
        past, size = Past(), 0
        for number, line in enumerate(lines[:-1]):
            try:
                past = after(past, json.loads(line))
            except (ValueError, KeyError, TypeError, IndexError, AttributeError):
                if number < len(lines) - 2 or number == 0:
                    self.log.replace(self.log.with_suffix(".spoilt.jsonl"))
                    return None
                break
            size += len(line) + 1
        if size < self.log.stat().st_size:
            os.truncate(self.log, size)
        return past if size else None

    def append(self, *records: Record) -> None:
        """Put records at the end of the log, and see them onto the disk."""
        with self.log.open("ab") as file:
            file.write(b"".join(map(_line, records)))
            file.flush()
            os.fsync(file.fileno())

    def keep(self, data: bytes) -> str:
        """Keep `data`, and return its SHA-256."""
        digest = hashlib.sha256(data).hexdigest()
        if not self.has(digest):
            replace_file(self.blobs / digest, data)
        return digest

    def has(self, digest: str | None) -> bool:
        """Tell whether the bytes of `digest` are here; nothing always is."""
        return digest is None or (self.blobs / digest).is_file()

    def bytes_of(self, digest: str) -> bytes:
        """Return the bytes of `digest`. Raises OSError where they are gone or spoilt."""
        data = (self.blobs / digest).read_bytes()
        if hashlib.sha256(data).hexdigest() != digest:
            raise OSError(0, "damaged")
        return data

    def tidied(self, past: Past) -> Past:
        """Return `past` without its oldest entries where it has too many, or they are too large."""
        sizes = {one.name: one.stat().st_size for one in self.blobs.iterdir()}
        most = min(MOST_ENTRIES, _that_fit(past, sizes))
        lines = self.log.read_bytes().count(b"\n")
        if len(past.entries) <= most and lines <= MOST_LINES:
            return past
        records = list(shortened(past, most))
        replace_file(self.log, b"".join(map(_line, records)))
        short = Past()
        for one in records:
            short = after(short, one)
        for digest in sizes.keys() - _named(short):
            (self.blobs / digest).unlink(missing_ok=True)
        return short


def _line(record: Record) -> bytes:
    return json.dumps(record, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def _that_fit(past: Past, sizes: dict[str, int]) -> int:
    """Return how many of the newest entries fit; what the files are now does not count."""
    seen, total = set(past.files.values()), 0
    for count, one in enumerate(reversed(past.entries)):
        fresh = {digest for pair in one.moves.values() for digest in pair if digest} - seen
        seen |= fresh
        total += sum(sizes.get(digest, 0) for digest in fresh)
        if total > MOST_BYTES:
            return max(1, count)
    return len(past.entries)


def _named(past: Past) -> set[str]:
    moves: Iterable[str | None] = (
        digest for one in past.entries for pair in one.moves.values() for digest in pair
    )
    return {digest for digest in (*moves, *past.files.values()) if digest is not None}
