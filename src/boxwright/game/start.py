"""A new game folder: a small game that works, with remarks, to be changed bit by bit."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import suppress
from importlib.resources import as_file, files
from pathlib import Path as File

from boxwright.game.ages import ages_fault
from boxwright.game.clue_references import CONTENT
from boxwright.game.draft import GAME, KIT, ROOM
from boxwright.game.pictures import PICTURES
from boxwright.game.schema import FILES, schema_name, schema_text
from boxwright.game.signs import control_sign
from boxwright.game.text_edit import changed
from boxwright.problems import Edit, Problem, Where
from boxwright.text import better_id, nfc

SCHEMAS = ".schema"
LONGEST_TITLE = 80


def start(
    folder: File, title: str | None = None, ages: tuple[int, int] | None = None
) -> Problem | None:
    """Write a new game into `folder`, which is made if need be and must be empty.

    Args:
        folder: where the game goes; nothing in it is ever overwritten.
        title: the game's title; also its id, as near as may be.
        ages: the youngest and the oldest.

    Returns:
        What is wrong with the wishes or the folder; then nothing was written.
    """
    fault = _title_fault(title) or _ages_fault(ages) or _folder_fault(folder)
    if fault is not None:
        return fault
    text = _template(GAME)
    for edit in _edits(title, ages):
        text = changed(text, edit)
    try:
        _write(folder, text)
    except OSError as error:
        where, why = Where(str(folder)), error.strerror or str(error)
        return Problem.of("new.unwritable", where, folder=str(folder), why=why)
    return None


def _title_fault(title: str | None) -> Problem | None:
    if title is None:
        return None
    where = Where(GAME, ("game", "title"))
    if not title.strip() or control_sign(title) or "\n" in title:
        return Problem.of("new.no-title", where)
    if len(title.strip()) > LONGEST_TITLE:
        return Problem.of("new.long-title", where, n=len(title.strip()), most=LONGEST_TITLE)
    return None


def _ages_fault(ages: tuple[int, int] | None) -> Problem | None:
    return None if ages is None else ages_fault(ages, Where(GAME, ("game", "ages")))


def _folder_fault(folder: File) -> Problem | None:
    where = Where(str(folder))
    if folder.is_symlink() and not folder.exists():
        return Problem.of("new.not-a-folder", where, folder=str(folder))
    if not folder.exists():
        return None
    if not folder.is_dir():
        return Problem.of("new.not-a-folder", where, folder=str(folder))
    try:
        found = sorted(one.name for one in folder.iterdir())
    except OSError as error:
        why = error.strerror or str(error)
        return Problem.of("new.unwritable", where, folder=str(folder), why=why)
    if found:
        return Problem.of("new.not-empty", where, folder=str(folder), found=tuple(found[:3]))
    return None


def _edits(title: str | None, ages: tuple[int, int] | None) -> Iterator[Edit]:
    if title is not None:
        name = nfc(title.strip())
        yield Edit(GAME, ("game", "id"), better_id(name, "my-game"))
        yield Edit(GAME, ("game", "title"), name)
    if ages is not None:
        yield Edit(GAME, ("game", "ages"), list(ages))


def _template(name: str) -> str:
    return (files("boxwright.game") / "template" / name).read_text(encoding="utf-8")


def _write(folder: File, game: str) -> None:
    """Write everything into `folder`, which is empty or absent; leave it so on failure."""
    was_there = folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    try:
        with as_file(files("boxwright.game") / "template") as template:
            shutil.copytree(template, folder, copy_function=shutil.copyfile, dirs_exist_ok=True)
        _write_text(folder / GAME, game)
        (folder / SCHEMAS).mkdir()
        for file in FILES:
            _write_text(folder / SCHEMAS / schema_name(file), schema_text(file))
    except OSError:
        _take_back(folder, was_there=was_there)
        raise


def _write_text(path: File, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")


def _take_back(folder: File, *, was_there: bool) -> None:
    for name in (GAME, KIT, ROOM):
        (folder / name).unlink(missing_ok=True)
    for name in (CONTENT, PICTURES, SCHEMAS):
        shutil.rmtree(folder / name, ignore_errors=True)
    if not was_there:
        with suppress(OSError):
            folder.rmdir()
