"""Editions on disk: `GAME/editions/ID.json`, and which of them are current.

`current.json` names the editions of one play and says what they were made of, so that a change
of the game, the kit, the room or the content since then can be noticed.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path as File
from typing import Any

from pydantic import TypeAdapter, ValidationError

from boxwright.choose.edition import Edition, edition_from_json, edition_json
from boxwright.game.choosing import Wishes
from boxwright.game.folder import Folder
from boxwright.problems import Problem, Where, refuse
from boxwright.text import canonical_json, content_id

EDITIONS = "editions"
CURRENT = "current.json"
PICTURES, CONTENT = "pictures", "content"


@dataclass(frozen=True, slots=True)
class Current:
    """The current editions of a game, the wishes and files that they were made from."""

    editions: tuple[str, ...]
    made_of: str
    wishes: Wishes
    kit: str | None = None
    room: str | None = None

    def files(self, game: File) -> tuple[File, ...]:
        """Return the editions' files."""
        return tuple(game / EDITIONS / f"{id}.json" for id in self.editions)


def made_of(folder: Folder) -> str:
    """Return a digest of all that an edition of `folder` is made of."""
    digest = hashlib.sha256()
    for role in sorted(folder.files):
        digest.update(f"{role}\0{folder.files[role].text}\0".encode())
    for name in (CONTENT, PICTURES):
        for file in sorted((folder.path / name).glob("*")):
            if file.is_file():
                digest.update(f"{name}/{file.name}\0".encode() + file.read_bytes())
    return digest.hexdigest()


def save(
    folder: Folder, editions: Sequence[Edition], wishes: Wishes, named: Mapping[str, File | None]
) -> tuple[File, ...]:
    """Write `editions` into their folder, make them current, and return their files.

    `named` are the kit and the room given on the command line; they are remembered as
    paths from the game folder, so that a later command needs not name them again.
    """
    where = folder.path / EDITIONS
    where.mkdir(exist_ok=True)
    ids = tuple(edition.id for edition in editions)
    paths = {role: _from(folder.path, path) for role, path in named.items()}
    now = Current(ids, made_of(folder), wishes, **paths)
    for edition, file in zip(editions, now.files(folder.path), strict=True):
        _write(file, edition_json(edition))
    _write(where / CURRENT, TypeAdapter(Current).dump_python(now, mode="json"))
    return now.files(folder.path)


def _from(folder: File, path: File | None) -> str | None:
    if path is None:
        return None
    try:
        return os.path.relpath(path, folder)
    except ValueError:  # another drive
        return str(path.absolute())


def _write(file: File, value: Any) -> None:
    beside = file.with_suffix(".tmp")
    beside.write_text(canonical_json(value), encoding="utf-8", newline="\n")
    beside.replace(file)


def current(game: File) -> Current | None:
    """Return which editions of a game folder are current; None where none were made."""
    file = game / EDITIONS / CURRENT
    if not file.is_file():
        return None
    try:
        return TypeAdapter(Current).validate_python(_read(file))
    except ValidationError:
        refuse(Problem.of("edition.damaged", Where(str(file), (), 1), file=str(file)))


def load(file: File) -> Edition:
    """Return the edition in `file`; raises Refused where it is none, or was changed by hand."""
    value = _read(file)
    try:
        edition = edition_from_json(value)
    except (ValidationError, TypeError):
        refuse(Problem.of("edition.damaged", Where(str(file), (), 1), file=str(file)))
    plain = {key: part for key, part in value.items() if key != "id"}
    if edition.id != content_id(plain):
        refuse(Problem.of("edition.changed", Where(str(file), (), 1), file=str(file)))
    return edition


def _read(file: File) -> dict[str, Any]:
    try:
        value = json.loads(file.read_text(encoding="utf-8"))
    except OSError as error:
        why = error.strerror or str(error)
        refuse(Problem.of("edition.unreadable", Where(str(file)), file=str(file), why=why))
    except ValueError:
        refuse(Problem.of("edition.damaged", Where(str(file), (), 1), file=str(file)))
    if not isinstance(value, dict):
        refuse(Problem.of("edition.damaged", Where(str(file), (), 1), file=str(file)))
    return value
