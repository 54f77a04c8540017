"""Files written together: all of them, or none.

Half of one printed set beside half of another would give pupils sheets whose codes no lock
has. So everything is written beside its place first, and takes its place only then; what
stood there is put back where one of them cannot.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Collection, Mapping, Sequence
from contextlib import ExitStack
from pathlib import Path as File
from tempfile import TemporaryDirectory

from boxwright.problems import Problem, Where, refuse

_BESIDE = ".boxwright-"


def write_together(folder: File, files: Mapping[str, bytes], gone: Collection[str] = ()) -> None:
    """Write `files` into `folder`, which is made if need be, and remove `gone` from it.

    Args:
        folder: where all of them go.
        files: what each holds, by its name in the folder.
        gone: names of files of the folder that are to be there no longer.

    Raises:
        Refused: where one of them cannot be; then the folder holds what it held before.
    """
    try:
        if folder.exists() and not folder.is_dir():
            refuse(Problem.of("printout.no-folder", Where(str(folder)), folder=str(folder)))
        folder.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(prefix=_BESIDE, dir=folder) as beside:
            new, old = File(beside, "new"), File(beside, "old")
            new.mkdir()
            old.mkdir()
            for name, data in files.items():
                (new / name).write_bytes(data)
            _swap(folder, new, old, (*files, *gone))
    except OSError as error:
        file, why = _blamed(folder, error), error.strerror or str(error)
        refuse(Problem.of("printout.unwritable", Where(file), file=file, why=why))


def write_numbered(out: File, contents: Sequence[bytes]) -> list[File]:
    """Write one file, or several with a number in their names; Refused like `write_together`."""
    files = [out]
    if len(contents) > 1:
        files = [out.with_stem(f"{out.stem}-{at}") for at in range(1, len(contents) + 1)]
    names = [file.name for file in files]
    write_together(out.parent, dict(zip(names, contents, strict=True)))
    return files


def _swap(folder: File, new: File, old: File, names: Collection[str]) -> None:
    """Put what `new` has in the place of what `folder` has, which goes to `old`."""
    for name in names:
        if (folder / name).is_dir():
            # A folder would let itself be moved away like a file.
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(folder / name))
    with ExitStack() as undo:
        for name in names:
            place = folder / name
            if place.exists():
                place.replace(old / name)
                undo.callback((old / name).replace, place)
            if (new / name).exists():
                (new / name).replace(place)
                undo.callback(place.unlink, missing_ok=True)
        undo.pop_all()


def _blamed(folder: File, error: OSError) -> str:
    """Return the file that an error is about, by the name that the teacher knows."""
    named = (name for name in (error.filename2, error.filename) if isinstance(name, str))
    file = next((File(name) for name in named if _BESIDE not in name), None)
    if file is None and isinstance(error.filename, str):
        file = folder / File(error.filename).name
    return str(folder if file is None or file.name.startswith(_BESIDE) else file)
