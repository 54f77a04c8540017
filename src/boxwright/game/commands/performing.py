"""One command performed: asked for, tried on a copy, judged, and written with its history."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path as File
from typing import Any

from pydantic import ValidationError

from boxwright.game.commands.asked import Asked
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.commands.registry import COMMANDS
from boxwright.game.draft import Extra
from boxwright.game.faults import problems_of
from boxwright.game.folder import Folder, Problems, read_game
from boxwright.game.history import History, Moment
from boxwright.game.history_store import HOME
from boxwright.game.owned import owned
from boxwright.game.toml_file import TomlFile
from boxwright.game.toml_where import Outline
from boxwright.game.union_faults import frozen
from boxwright.game.write import ROLES, fresh_faults
from boxwright.problems import Problem, Where, refuse
from boxwright.text import nearest

Files = Mapping[str, bytes | None]


def perform(
    history: History, name: str, args: Mapping[str, Any], tag: str, *, also: Iterable[Extra] = ()
) -> Moment:
    """Perform the command `name` on a game, and return how things stand then.

    Args:
        history: the history of the game's folder.
        name: one of `COMMANDS`.
        args: what the command asks for.
        tag: the tag of the state that the command is meant for.
        also: checks of other units, as for `read_game`.

    Raises:
        Refused: where the game is in another state, where the arguments or what they ask
            for make no sense, and where the game would have faults that it has not now. A
            problem's path begins with the argument that it is about, if it is about one.
    """
    command = _command(name)
    asked = _asked(command, args)
    history.expect(tag)
    desk = Desk(history.folder)
    what = command.perform(desk, asked)
    files = desk.files()
    faults = _faults(history.folder, files, tuple(also))
    if faults:
        refuse(*(_placed(one, command, asked) for one in faults))
    return history.change(tag, what, files)


def _command(name: str) -> Command:
    command = COMMANDS.get(name)
    if command is None:
        near = nearest(name, COMMANDS) or ""
        refuse(Problem.of("change.no-such-command", Where(name[:80]), name=name[:80], near=near))
    return command


def _asked(command: Command, args: Mapping[str, Any]) -> Asked:
    data: Any = frozen(args)
    try:
        return command.asks.model_validate(data)
    except ValidationError as error:
        file = TomlFile(command.name, "", data, Outline({}, (), {}))
        found = problems_of(error, file, command.asks)
        refuse(
            *(replace(one, where=Where(command.name, one.where.path), edit=None) for one in found)
        )


def _placed(problem: Problem, command: Command, asked: Asked) -> Problem:
    """Return `problem` at its argument; lines of what is not written say nothing."""
    path = problem.where.path
    fields = {info.alias or name for name, info in command.asks.model_fields.items()}
    field = next((step for step in reversed(path) if step in fields), None)
    if field is None and getattr(asked, "field", None) in path:
        field = "value"
    if field is None or problem.where.file not in ROLES:
        return replace(problem, where=Where(problem.where.file, path), edit=None)
    rest = path[path.index(field) + 1 :] if field in path else ()
    return replace(problem, where=Where(command.name, (field, *rest)), edit=None)


# The game as it would be.


def _faults(folder: File, files: Files, also: tuple[Extra, ...]) -> Problems:
    """Return the faults that a game would have with `files` and has not now."""
    return fresh_faults(lambda: read_game(folder, also=also), _tried(folder, files, also))


def _tried(folder: File, files: Files, also: tuple[Extra, ...]) -> Folder | Problems:
    instead = {name: data for name, data in files.items() if name in ROLES and data is not None}
    if len(instead) == len(files):
        return read_game(folder, also=also, instead=instead)
    with _copy(folder, files) as copy:
        return read_game(copy, also=also)


@contextmanager
def _copy(folder: File, files: Files) -> Iterator[File]:
    """Give a copy of the game with `files` in it, on the same disk, for as long as it takes."""
    home = folder / HOME
    home.mkdir(exist_ok=True)
    copy = File(tempfile.mkdtemp(dir=home, prefix="trial-"))
    try:
        for name, entry in owned(folder):
            if name not in files:
                _same_file(File(entry.path), copy / name)
        for name, data in files.items():
            if data is not None:
                (copy / name).parent.mkdir(parents=True, exist_ok=True)
                (copy / name).write_bytes(data)
        yield copy
    finally:
        shutil.rmtree(copy, ignore_errors=True)


def _same_file(file: File, at: File) -> None:
    """Put `file` at `at` too: by a second name where the disk can, else as a copy."""
    at.parent.mkdir(parents=True, exist_ok=True)
    with suppress(OSError):
        at.hardlink_to(file)
    if not at.exists():
        shutil.copyfile(file, at)
