"""Files that a game folder names: found inside it, or not at all.

A folder may come from anybody. No name in it leads out of it: not by `..`, not as an
absolute path, not through a link; and a name means the same file on every computer,
so capitals count even where the disk does not mind.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path, PurePosixPath

from boxwright.problems import Problem, Where
from boxwright.text import nearest, nfc

_FOREIGN = re.compile(r"[\x00-\x1f\x7f\\:]")
LONGEST_NAME = 200


def _ill_formed(name: str) -> bool:
    parts = name.split("/")
    return (
        bool(_FOREIGN.search(name))
        or len(name) > LONGEST_NAME
        or any(part in ("", ".") or part.endswith((" ", ".")) for part in parts if part != "..")
    )


def inside(base: Path, name: str, where: Where, shown: str) -> Path | Problem:
    """Return the file `name` in the folder `base`, or what is wrong with the name.

    Args:
        base: the folder that must hold the file.
        name: a relative path with forward slashes, as a file of the game gives it.
        where: the place that names it.
        shown: how to call `base` to a person, such as `content/`.
    """
    bare = _without(name, shown)
    if bare is not None and not isinstance(inside(base, bare, where, shown), Problem):
        return Problem.of("folder.folder-in-front", where, name=name, folder=shown, bare=bare)
    if ".." in PurePosixPath(name).parts or name.startswith(("/", "~")):
        return Problem.of("folder.outside", where, name=name, folder=shown)
    if _ill_formed(name):
        return Problem.of("folder.file-name", where, name=name[:LONGEST_NAME], folder=shown)
    path = base
    for part in name.split("/"):
        names = listed(path)
        if part not in names:
            return _missing(base, name, where, shown)
        path = path / names[part]
    if not path.resolve().is_relative_to(base.resolve()):
        return Problem.of("folder.outside", where, name=name, folder=shown)
    return path if path.is_file() else _missing(base, name, where, shown)


def _without(name: str, shown: str) -> str | None:
    """Return `name` without the folder that is looked in anyway, if it begins with that."""
    forward = name.replace("\\", "/").removeprefix("./")
    bare = forward.removeprefix(shown).strip("/")
    return bare if bare not in ("", name) else None


def listed(folder: Path) -> dict[str, str]:
    """Return the names in `folder` (composed letters) as the disk spells them."""
    try:
        return {nfc(entry.name): entry.name for entry in sorted(folder.iterdir())}
    except OSError:
        return {}


def near_file(name: str, known: Iterable[str]) -> str | None:
    """Return the file of `known` that `name` most likely means, if any is near.

    First one that differs in capitals or in its ending alone, such as `game.toml.txt`.
    """
    files = tuple(known)
    small, stem = name.casefold(), PurePosixPath(name).stem.casefold()
    same = (one for one in files if one.casefold() in (small, f"{small}.txt"))
    ending = (one for one in files if PurePosixPath(one).stem.casefold() == stem)
    return next(same, None) or next(ending, None) or nearest(name, files)


def _missing(base: Path, name: str, where: Where, shown: str) -> Problem:
    known = [name for name in listed(base) if not name.startswith(".")]
    if name in listed(base.parent):
        return Problem.of("folder.beside", where, name=name, folder=shown)
    near = near_file(name, known)
    if near is not None:
        return Problem.of("folder.no-such-file-but", where, name=name, folder=shown, near=near)
    return Problem.of("folder.no-such-file", where, name=name, folder=shown)
