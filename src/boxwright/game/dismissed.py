"""Findings that a teacher has put aside for good, by their ids, beside the game's history.

It is no change to the game: a copy begins without, and undo does not touch it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from pathlib import Path as File

from boxwright.game.file_lock import held
from boxwright.game.history_store import HOME
from boxwright.game.write import replace_file
from boxwright.problems import AnyWeighed, Problem, Where, refuse

FILE = "dismissed.json"
MOST = 2_000
"""How many are kept; the oldest go first. No game has so many findings."""


def dismissed(folder: File) -> tuple[str, ...]:
    """Return the ids of what was put aside, the oldest first; none where that is unreadable."""
    try:
        found = json.loads((folder / HOME / FILE).read_bytes())
    except (OSError, ValueError):
        return ()
    return tuple(one for one in found if isinstance(one, str)) if isinstance(found, list) else ()


def parted(
    folder: File, findings: Iterable[AnyWeighed]
) -> tuple[tuple[AnyWeighed, ...], tuple[AnyWeighed, ...]]:
    """Return the findings that are to be told, and those put aside; no stop is put aside."""
    away, found = set(dismissed(folder)), tuple(findings)
    aside = tuple(one for one in found if one.severity != "stop" and one.id in away)
    return tuple(one for one in found if one not in aside), aside


def dismiss(folder: File, id: str) -> None:
    """Put the finding `id` aside. Raises Refused where that cannot be written down."""
    _keep(folder, lambda ids: (*(one for one in ids if one != id), id))


def bring_back(folder: File, id: str) -> None:
    """Let the finding `id` be told again. Raises Refused as `dismiss` does."""
    _keep(folder, lambda ids: (one for one in ids if one != id))


def _keep(folder: File, changed: Callable[[tuple[str, ...]], Iterable[str]]) -> None:
    home = folder / HOME
    try:
        home.mkdir(exist_ok=True)
        with held(home / f"{FILE}.lock"):
            ids = tuple(changed(dismissed(folder)))[-MOST:]
            replace_file(home / FILE, json.dumps(ids).encode())
    except OSError as error:
        why = error.strerror or str(error)
        refuse(Problem.of("edit.unwritable", Where(FILE), name=folder.name, why=why))
