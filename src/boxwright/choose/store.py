"""Editions on disk: `GAME/editions/ID.json`, and which of them are current.

`current.json` names the editions of one play and says what they were made of, so that a change
of the game, the kit, the room or the content since then can be noticed.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import field
from pathlib import Path as File
from typing import Any, NoReturn

from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition, edition_from_json, edition_json
from boxwright.frozen import frozen_value
from boxwright.game.choosing import Wishes
from boxwright.game.folder import Folder
from boxwright.game.format import FORMAT
from boxwright.messages import typed
from boxwright.problems import Problem, Refused, Where, refuse
from boxwright.records import from_json, to_json
from boxwright.text import canonical_json, content_id

EDITIONS = "editions"
CURRENT = "current.json"
TO_COME = "to-come.json"
PICTURES, CONTENT = "pictures", "content"


@frozen_value
class Current:
    """The current editions of a game, the wishes and files that they were made from.

    `parts` has a digest of each of those files, by its name in the game folder.
    """

    editions: tuple[str, ...]
    made_of: str
    wishes: Wishes
    kit: str | None = None
    room: str | None = None
    parts: Mapping[str, str] = field(default_factory=dict)

    def files(self, game: File) -> tuple[File, ...]:
        """Return the editions' files."""
        return tuple(game / EDITIONS / f"{id}.json" for id in self.editions)


def made_of(folder: Folder) -> str:
    """Return a digest of all that an edition of `folder` is made of."""
    return _digest(_parts(folder))


def _digest(parts: Iterable[tuple[str, bytes]]) -> str:
    digest = hashlib.sha256()
    for name, data in parts:
        digest.update(f"{name}\0".encode() + data)
    return digest.hexdigest()


def parts_of(folder: Folder) -> dict[str, str]:
    """Return a digest of each file that an edition of `folder` is made of, by its name."""
    return _digests(_parts(folder))


def _digests(parts: Iterable[tuple[str, bytes]]) -> dict[str, str]:
    return {name: hashlib.sha256(data).hexdigest() for name, data in parts}


def _parts(folder: Folder) -> Iterator[tuple[str, bytes]]:
    for role in sorted(folder.files):
        yield role, f"{folder.files[role].text}\0".encode()
    for name in (CONTENT, PICTURES):
        for file in sorted((folder.path / name).glob("*")):
            if file.is_file():
                yield f"{name}/{file.name}", file.read_bytes()


def save(
    folder: Folder, editions: Sequence[Edition], wishes: Wishes, named: Mapping[str, File | None]
) -> Current:
    """Write `editions` into their folder, make them current, and return them so.

    `named` are the kit and the room given on the command line; they are remembered as
    paths from the game folder, so that a later command needs not name them again.

    Raises Refused where they cannot be written.
    """
    where = folder.path / EDITIONS
    _make(where)
    ids = tuple(edition.id for edition in editions)
    paths = {role: _from(folder.path, path) for role, path in named.items()}
    parts = tuple(_parts(folder))
    now = Current(ids, _digest(parts), wishes, **paths, parts=_digests(parts))
    for edition, file in zip(editions, now.files(folder.path), strict=True):
        _write(file, edition_json(edition))
    _write(where / CURRENT, to_json(now))
    with suppress(OSError):
        (where / TO_COME).unlink(missing_ok=True)
    return now


def keep_chance(game: File, chance: Chance) -> None:
    """Keep the seed and the throws for the first printed set of a game.

    Raises Refused where they cannot be written.
    """
    _make(game / EDITIONS)
    _write(game / EDITIONS / TO_COME, to_json(chance))


def chance_to_come(game: File) -> Chance | None:
    """Return what was kept for the first printed set; None where nothing readable was."""
    file = game / EDITIONS / TO_COME
    if not file.is_file():
        return None
    try:
        return from_json(Chance, _read(file))
    except Refused:
        return None


def _from(folder: File, path: File | None) -> str | None:
    if path is None:
        return None
    try:
        return os.path.relpath(path, folder)
    except ValueError:  # another drive
        return str(path.absolute())


def _make(folder: File) -> None:
    """Make the folder of editions, unless it is there."""
    if folder.exists() and not folder.is_dir():
        refuse(Problem.of("edition.no-folder", Where(str(folder)), folder=str(folder)))
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        _refuse_writing(folder, error)


def _write(file: File, value: Any) -> None:
    beside = file.with_suffix(".tmp")
    try:
        beside.write_text(canonical_json(value), encoding="utf-8", newline="\n")
        beside.replace(file)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        _refuse_writing(file, error)


def _refuse_writing(file: File, error: OSError) -> NoReturn:
    why = error.strerror or str(error)
    refuse(Problem.of("edition.unwritable", Where(str(file)), file=str(file), why=why))


def current(game: File) -> Current | None:
    """Return which editions of a game folder are current; None where none were made."""
    file = game / EDITIONS / CURRENT
    if not file.is_file():
        return None
    value = _read(file)
    try:
        return from_json(Current, value)
    except Refused:
        refuse(_fault("edition.damaged", file))


def load(file: File) -> Edition:
    """Return the edition in `file`; raises Refused where it is none, or was changed by hand."""
    value = _read(file)
    try:
        edition = edition_from_json(value)
        id = content_id({key: part for key, part in value.items() if key != "id"})
    except (Refused, TypeError, ValueError, RecursionError):
        refuse(_fault("edition.damaged", file))
    if edition.id != id:
        refuse(_fault("edition.changed", file))
    if edition.format != FORMAT:
        refuse(_fault("edition.damaged", file))
    return edition


def copy_game(game: File, target: File) -> None:
    """Copy a game folder without what was made of it: the copy begins a life of its own.

    Raises OSError where it cannot be written, or is there already.
    """
    import shutil  # late, like the next: no command copies a game

    from boxwright.game.history_store import HOME

    shutil.copytree(game, target, ignore=shutil.ignore_patterns(EDITIONS, HOME, "out"))


def _read(file: File) -> dict[str, Any]:
    try:
        value = json.loads(file.read_text(encoding="utf-8"))
    except OSError as error:
        refuse(_fault("edition.unreadable", file, why=error.strerror or str(error)))
    except (ValueError, RecursionError):
        refuse(_fault("edition.damaged", file))
    if not isinstance(value, dict):
        refuse(_fault("edition.damaged", file))
    return value


def _fault(code: str, file: File, why: str = "") -> Problem:
    """Return the problem that an edition's file is not as it was written."""
    command = typed("build", game_of(file))
    return Problem.of(code, Where(str(file)), file=str(file), command=command, why=why)


def game_of(file: File) -> File:
    """Return the game folder that holds an edition's file."""
    return (file if len(file.parts) > 2 else file.absolute()).parent.parent
