"""The files of a game folder that are the teacher's, and one tag that stands for them all.

Printed sets and print-outs are made from these files and do not belong to them.
"""

from __future__ import annotations

import hashlib
import os
import re
import time
from collections.abc import Iterator, Mapping
from pathlib import Path as File

from boxwright.game.clue_references import CONTENT
from boxwright.game.pictures import MOST_BYTES, PICTURES
from boxwright.game.write import ROLES
from boxwright.text import content_id

SETTLED_NS = 2_000_000_000
"""A file changed less than this before it was read may change again unseen: some disks keep
times to two seconds only."""

_NAME = re.compile(r"(?!\.)[^\x00-\x1f\x7f\\/:]*[^\x00-\x1f\x7f\\/: .]")
_digests: dict[str, tuple[tuple[int, ...], str]] = {}


def is_owned(name: str) -> bool:
    """Tell whether `name`, a path with forward slashes, can be a file of a game's own."""
    head, *rest = name.split("/")
    if not rest:
        return name in ROLES
    return head in (CONTENT, PICTURES) and all(_NAME.fullmatch(part) for part in rest)


def owned(folder: File) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Yield the name of each file of the game's own, and what the disk says of it.

    Links out of the folder are left out, as are files too large for the game to use.
    """
    for entry in _entries(folder):
        if entry.name in ROLES and _counts(folder, entry):
            yield entry.name, entry
        elif entry.name in (CONTENT, PICTURES) and entry.is_dir(follow_symlinks=False):
            yield from _below(folder, entry.path, entry.name)


def _below(folder: File, path: str, name: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    for entry in _entries(path):
        inner = f"{name}/{entry.name}"
        if not is_owned(inner):
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _below(folder, entry.path, inner)
        elif _counts(folder, entry):
            yield inner, entry


def _entries(path: File | str) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(path) as found:
            return sorted(found, key=lambda entry: entry.name)
    except OSError:
        return []


def _counts(folder: File, entry: os.DirEntry[str]) -> bool:
    try:
        if not entry.is_file() or entry.stat().st_size > MOST_BYTES:
            return False
    except OSError:
        return False
    return not entry.is_symlink() or File(entry.path).resolve().is_relative_to(folder.resolve())


def manifest(folder: File) -> dict[str, str]:
    """Return the SHA-256 of each file of the game's own by its name."""
    found = {}
    for name, entry in owned(folder):
        digest = _digest(entry)
        if digest is not None:
            found[name] = digest
    return found


def _digest(entry: os.DirEntry[str]) -> str | None:
    """Return the SHA-256 of a file, read again only where the disk says that it changed."""
    path = os.path.abspath(entry.path)  # noqa: PTH100 - asked for at each request
    try:
        about = os.stat(path)  # noqa: PTH116
        stamp = (about.st_mtime_ns, about.st_ctime_ns, about.st_size, about.st_ino)
        known = _digests.get(path)
        if known is not None and known[0] == stamp:
            return known[1]
        read_at = time.time_ns()
        digest = hashlib.sha256(File(path).read_bytes()).hexdigest()
    except OSError:
        return None
    if max(stamp[:2]) < read_at - SETTLED_NS:
        _digests[path] = (stamp, digest)
    return digest


def tag_of(folder: File) -> str:
    """Return what names the state of the game's own files: it changes when one of them does."""
    return tag_of_files(manifest(folder))


def tag_of_files(files: Mapping[str, str]) -> str:
    """Return the tag of files given by name and SHA-256."""
    return content_id(dict(files))
