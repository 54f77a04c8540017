"""How grave what the checks found is, kept beside the printed set in which they found it.

A check is a function of the folder, the editions and the program, so that as long as none of
these changes it would find the same. Printing takes what is kept; `check` always judges anew.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from boxwright import __version__
from boxwright.build import Built, judged
from boxwright.choose.edition import Edition
from boxwright.choose.store import EDITIONS
from boxwright.frozen import frozen_value
from boxwright.game.folder import Folder
from boxwright.game.write import replace_file
from boxwright.problems import Refused, Severity, Weighed
from boxwright.records import from_json, to_json
from boxwright.text import canonical_json

if TYPE_CHECKING:
    from boxwright.build.current import Standing

FILE = "judgement.json"
PROGRAM = Path(__file__).parent.parent


@frozen_value
class Weight:
    """A finding by its id, and how grave it is."""

    id: str
    severity: Severity


@frozen_value
class Judgement:
    """What was found, the gravest first, and a digest `of` all that it follows from."""

    of: str
    weights: tuple[Weight, ...]


def keep_judgement(built: Built, made_of: str) -> None:
    """Keep what was found in the current editions; where it cannot be, they are judged again.

    `made_of` is the digest of all that they were made of.
    """
    weights = tuple(Weight(finding.id, finding.severity) for finding in built.findings)
    judgement = Judgement(_basis(made_of, built.editions), weights)
    with suppress(OSError):
        replace_file(_file(built.folder), canonical_json(to_json(judgement)).encode())


def weights_of(found: Built | Standing) -> Sequence[Weighed]:
    """Return how grave what the checks find is: as it was kept, if that still holds."""
    if isinstance(found, Built):
        return found.findings
    kept = _kept(_file(found.folder))
    if kept is not None and kept.of == _basis(found.made_of, found.editions):
        return kept.weights
    return judged(found.folder, found.editions).findings


def _kept(file: Path) -> Judgement | None:
    try:
        return from_json(Judgement, json.loads(file.read_bytes()))
    except (OSError, ValueError, RecursionError, Refused):
        return None


def _file(folder: Folder) -> Path:
    return folder.path / EDITIONS / FILE


def _basis(made_of: str, editions: Iterable[Edition]) -> str:
    """Return a digest of all that the checks go by."""
    ids = (edition.id for edition in editions)
    told = "\n".join((made_of, *ids, __version__, *sorted(_program(PROGRAM))))
    return hashlib.sha256(told.encode()).hexdigest()


def _program(folder: Path) -> Iterator[str]:
    """Yield each file of the program: how long it is, and of when."""
    for entry in os.scandir(folder):
        if not entry.is_dir():
            about = entry.stat()
            yield f"{entry.path} {about.st_size} {about.st_mtime_ns}"
        elif entry.name != "__pycache__":
            yield from _program(Path(entry))
