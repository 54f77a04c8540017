"""Changes to a teacher's files that keep their remarks, their order and their looks.

A change is worked out on the text, read again and compared with what was meant before
anything is written; a file is then replaced in one step, so that a crash leaves the old
one or the new one and never a half. What makes the game worse is not written at all.
"""

from __future__ import annotations

import os
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path as File

from boxwright.game.draft import GAME, KIT, ROOM
from boxwright.game.folder import Folder, Problems, read_game
from boxwright.game.inside import inside
from boxwright.game.text_edit import can, changed
from boxwright.game.toml_file import BOM, decoded, parsed, read_bytes
from boxwright.problems import Edit, Path, Problem, Where

ROLES = (GAME, KIT, ROOM)
NEW_MODE = 0o644
"""What a new file may be: read by all, written by its owner."""


def edit(folder: File, edits: Sequence[Edit]) -> Problems:
    """Make `edits` in the files of a game folder, or none of them.

    Each names its file by role (`game.toml`, `kit.toml`, `room.toml`). Returns what bars
    them: a path that is not there, or faults that the files would have afterwards and do
    not have now. Nothing is returned where all was written.
    """
    files: dict[str, tuple[File, bytes, bytes]] = {}
    for role in dict.fromkeys(one.file for one in edits):
        found = with_edits(folder, role, [one for one in edits if one.file == role])
        if isinstance(found, Problem):
            return (found,)
        files[role] = found
    return put(folder, files)


def put(folder: File, files: Mapping[str, tuple[File, bytes, bytes]]) -> Problems:
    """Write new bytes over old ones, unless the game would have faults that it has not now.

    `files` maps a role to its file, its bytes as they are, and as they are to be.
    """
    worse = fresh_faults(
        lambda: read_game(folder),
        read_game(folder, instead={role: new for role, (_, _, new) in files.items()}),
    )
    if worse:
        return worse
    for role, (path, old, new) in files.items():
        if new == old:
            continue
        try:
            if path.read_bytes() != old:
                return (Problem.of("edit.changed-meanwhile", Where(role), name=role),)
            replace_file(path, new)
        except OSError as error:
            why = error.strerror or str(error)
            return (Problem.of("edit.unwritable", Where(role), name=role, why=why),)
    return ()


def fresh_faults(before: Callable[[], Folder | Problems], after: Folder | Problems) -> Problems:
    """Return the faults of `after` that are new; one that a renamed thing takes along is not.

    `before` is asked for only where there are faults at all.
    """
    if isinstance(after, Folder):
        return ()
    found = before()
    old: Problems = () if isinstance(found, Folder) else found
    more = Counter(one.code for one in after) - Counter(one.code for one in old)
    known = {(one.code, one.where.path) for one in old}
    fresh = [one for one in after if (one.code, one.where.path) not in known]
    return tuple(one for one in fresh if more[one.code])


def source(folder: File, role: str) -> tuple[File, bytes] | Problem:
    """Return the file of `role` in `folder`, and its bytes."""
    if role not in ROLES:
        return Problem.of("edit.no-such-file", Where(role), name=role, choices=ROLES)
    path = inside(folder, role, Where(role), str(folder))
    if isinstance(path, Problem):
        return path
    raw = read_bytes(path, role)
    return raw if isinstance(raw, Problem) else (path, raw)


def with_edits(
    folder: File, role: str, edits: Iterable[Edit]
) -> tuple[File, bytes, bytes] | Problem:
    """Return the file of `role`, its bytes, and its bytes with `edits` made; nothing is written."""
    found = source(folder, role)
    if isinstance(found, Problem):
        return found
    path, raw = found
    text = decoded(raw, role)
    if isinstance(text, Problem):
        return text
    for one in edits:
        file = parsed(text, role)
        if isinstance(file, Problem):
            return file
        if not can(file.data, one):
            return Problem.of("edit.no-such-path", file.where(one.path), path=_dotted(one.path))
        try:
            text = changed(text, one)
        except (TypeError, ValueError):
            return Problem.of("edit.by-hand", file.where(one.path), path=_dotted(one.path))
    return path, raw, encoded(text, raw)


def encoded(text: str, like: bytes) -> bytes:
    """Return `text` as bytes with the line ends and the byte order mark of `like`."""
    if b"\r\n" in like:
        text = text.replace("\n", "\r\n")
    return (BOM if like.startswith(BOM) else b"") + text.encode("utf-8")


def _dotted(path: Path) -> str:
    return ".".join(str(step) for step in path)


# On the disk.


def replace_file(path: File, data: bytes) -> None:
    """Put `data` in place of the file `path` in one step, its permissions kept.

    A file that is not there is made. Raises OSError; the old file is then untouched.
    """
    path = path.resolve()
    mode = path.stat().st_mode if path.exists() else NEW_MODE
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        File(name).chmod(mode)
        File(name).replace(path)
    except BaseException:
        File(name).unlink(missing_ok=True)
        raise
    _sync_folder(path.parent)


def remove_halves(path: File) -> None:
    """Remove what a `replace_file` of `path` left that was cut short by the end of its process."""
    with suppress(OSError):
        for one in path.parent.iterdir():
            if one.name.startswith(f".{path.name}.") and one.is_file():
                one.unlink()


def _sync_folder(folder: File) -> None:
    """Ask the disk to keep the change of name too, where folders can be asked."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
