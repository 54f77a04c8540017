"""What was done to a game, as records in a row, and the past that they add up to.

A change is two records: what is meant before a file is touched, and that it is done. One
that was meant and is not done was cut short. What happened outside the program is on the
disk already and comes as one record, an entry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field, replace
from datetime import UTC, datetime
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.problems import Arg, Message, plain

Record = Mapping[str, Any]
Moves = Mapping[str, tuple[str | None, str | None]]
"""For each file its SHA-256 before and after; None where it is not there."""


@frozen_value
class Entry:
    """One change: how it is said, when it was made (RFC 3339, UTC), what it did to which file."""

    what: Message
    moves: Moves
    at: str


@frozen_value
class Past:
    """The files as they are known, all entries, how many of them stand, and what is unfinished."""

    files: Mapping[str, str] = field(default_factory=dict)
    entries: tuple[Entry, ...] = ()
    standing: int = 0
    meant: Record | None = None

    @property
    def to_undo(self) -> Entry | None:
        """The entry that undo takes back."""
        return self.entries[self.standing - 1] if self.standing else None

    @property
    def to_redo(self) -> Entry | None:
        """The entry that redo makes again."""
        return self.entries[self.standing] if self.standing < len(self.entries) else None


# Records.


def start(files: Mapping[str, str]) -> Record:
    """Return the record that begins a history."""
    return {"do": "start", "at": _now(), "files": dict(files)}


def change(what: Message, moves: Moves) -> Record:
    """Return the record of a change that is meant."""
    return {"do": "change", "at": _now(), "what": plain(what), "files": plain(moves)}


def entry(what: Message, moves: Moves, at: str | None = None) -> Record:
    """Return the record of a change that is made already."""
    return {"do": "entry", "at": at or _now(), "what": plain(what), "files": plain(moves)}


UNDO: Record = {"do": "undo"}
REDO: Record = {"do": "redo"}
DONE: Record = {"do": "done"}
DROPPED: Record = {"do": "dropped"}


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


# The past.


def after(past: Past, record: Record) -> Past:
    """Return `past` with one record more. Raises KeyError or the like where it makes no sense."""
    match record["do"]:
        case "start":
            return Past(dict(record["files"]))
        case "entry":
            return _with_entry(past, record)
        case "done" if past.meant is not None:
            return _done(past, past.meant)
        case "dropped":
            return replace(past, meant=None)
        case "change" | "undo" | "redo":
            return replace(past, meant=record)
    raise ValueError(f"no such record here: {record['do']}")


def _done(past: Past, meant: Record) -> Past:
    if meant["do"] == "change":
        return _with_entry(past, meant)
    step = -1 if meant["do"] == "undo" else 1
    files = moved(past.files, moves_of(past, meant))
    return Past(files, past.entries, past.standing + step)


def _with_entry(past: Past, record: Record) -> Past:
    made = Entry(_message(record["what"]), _moves(record["files"]), record["at"])
    entries = (*past.entries[: past.standing], made)
    return Past(moved(past.files, made.moves), entries, len(entries))


def moves_of(past: Past, meant: Record) -> Moves:
    """Return what the record `meant` does to the files of `past`."""
    if meant["do"] == "change":
        return _moves(meant["files"])
    if meant["do"] == "undo":
        return turned(past.entries[past.standing - 1].moves)
    return past.entries[past.standing].moves


def turned(moves: Moves) -> Moves:
    """Return `moves` the other way round."""
    return {name: (to, frm) for name, (frm, to) in moves.items()}


def moved(files: Mapping[str, str], moves: Moves) -> dict[str, str]:
    """Return `files` after `moves`."""
    after = {name: to for name, (_, to) in moves.items()}
    return {name: digest for name, digest in {**files, **after}.items() if digest is not None}


def states(past: Past) -> Iterator[Mapping[str, str]]:
    """Yield the files as they are, as they were before each entry that stands, newest first.

    Then as they would be after each that can be made again.
    """
    files = past.files
    yield files
    for one in reversed(past.entries[: past.standing]):
        files = moved(files, turned(one.moves))
        yield files
    files = past.files
    for one in past.entries[past.standing :]:
        files = moved(files, one.moves)
        yield files


def shortened(past: Past, most: int) -> Iterator[Record]:
    """Yield records for `past` as it is, without all but the newest `most` entries."""
    gone = min(max(0, len(past.entries) - most), past.standing)
    kept = past.entries[gone:]
    files = past.files
    for one in reversed(past.entries[gone : past.standing]):
        files = moved(files, turned(one.moves))
    yield start(files)
    yield from (entry(one.what, one.moves, one.at) for one in kept)
    for _ in range(len(past.entries) - past.standing):
        yield from (UNDO, DONE)


# Messages.


def _moves(data: Mapping[str, Any]) -> Moves:
    return {name: (frm, to) for name, (frm, to) in data.items()}


def _message(data: Mapping[str, Any]) -> Message:
    return Message(data["id"], {key: _argument(value) for key, value in data["args"].items()})


def _argument(value: Any) -> Arg:
    if isinstance(value, Mapping):
        return _message(value)
    return tuple(map(_argument, value)) if isinstance(value, list) else value
