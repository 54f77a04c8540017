"""Files that a game folder names: found inside it, or not at all.

A folder may come from anybody. No name in it leads out of it: not by `..`, not as an
absolute path, not through a link; and a name means the same file on every computer,
so capitals count even where the disk does not mind.
"""

from __future__ import annotations

import re
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


def listed(folder: Path) -> dict[str, str]:
    """Return the names in `folder` (composed letters) as the disk spells them."""
    try:
        return {nfc(entry.name): entry.name for entry in sorted(folder.iterdir())}
    except OSError:
        return {}


def _missing(base: Path, name: str, where: Where, shown: str) -> Problem:
    known = [name for name in listed(base) if not name.startswith(".")]
    by_small = {one.casefold(): one for one in known}
    near = by_small.get(name.casefold()) or nearest(name, known)
    if near is not None:
        return Problem.of("folder.no-such-file-but", where, name=name, folder=shown, near=near)
    return Problem.of("folder.no-such-file", where, name=name, folder=shown)
