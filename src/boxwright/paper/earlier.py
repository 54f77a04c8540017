"""What was printed into a folder before, so that sheets of an earlier set do not stay behind.

The folder keeps a list of what Boxwright wrote there, each file with its digest. A later
print of the same game removes what it no longer makes; a file that is not on the list, or
was changed since, is the teacher's own and stays.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from pathlib import Path as File
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.paper.writing import write_together
from boxwright.problems import Refused
from boxwright.records import from_json, to_json
from boxwright.text import canonical_json

LIST = ".print-outs.json"


@frozen_value
class Entry:
    """One file as it was written: its digest (SHA-256), and the printed sets it is of."""

    sha256: str
    editions: tuple[str, ...]


@frozen_value
class Put:
    """What happened to the files of the same game that were not written this time.

    `removed` were of an earlier print; `own` were changed by somebody since, and stay;
    `older` stay as well, where one sheet alone was printed, and are of another printed set.
    """

    removed: tuple[str, ...] = ()
    own: tuple[str, ...] = ()
    older: tuple[str, ...] = ()


Listed = Mapping[str, Mapping[str, Entry]]
"""Entries by the game's id and the file's name."""


@frozen_value
class _Kept:
    games: Listed


def put(
    folder: File, game: str, files: Mapping[str, bytes], editions: Sequence[str], *, whole: bool
) -> Put:
    """Write the print-outs `files` of a game, and remove its earlier ones if these are the `whole`.

    Raises Refused where that cannot be done; then nothing has changed.
    """
    known = _listed(folder)
    before = {name: one for name, one in known.get(game, {}).items() if name not in files}
    there = {name: one for name, one in before.items() if (folder / name).is_file()}
    ours = {name for name, one in there.items() if _digest(folder / name) == one.sha256}
    now = {name: Entry(digest(data), tuple(editions)) for name, data in files.items()}
    if whole:
        found = Put(tuple(sorted(ours)), tuple(sorted(there.keys() - ours)))
    else:
        older = (name for name, one in there.items() if one.editions != tuple(editions))
        found, now = Put(older=tuple(sorted(older))), before | now
    text = canonical_json(to_json({**known, game: now}))
    write_together(folder, {**files, LIST: text.encode()}, found.removed)
    return found


def digest(data: bytes) -> str:
    """Return the digest of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


def _digest(file: File) -> str | None:
    try:
        return digest(file.read_bytes())
    except OSError:
        return None


def _listed(folder: File) -> Listed:
    """Return the folder's list; empty, so that nothing is removed, where it cannot be read."""
    try:
        value: Any = json.loads((folder / LIST).read_text(encoding="utf-8"))
        known = from_json(_Kept, {"games": value}).games
    except (OSError, ValueError, RecursionError, Refused):
        return {}
    return {
        game: {name: one for name, one in entries.items() if File(name).name == name}
        for game, entries in known.items()
    }
