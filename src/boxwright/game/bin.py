"""A bin for games: a folder among the games' folders, from which each can be brought back."""

from __future__ import annotations

from pathlib import Path as File

from boxwright.game.draft import GAME
from boxwright.game.file_names import is_portable
from boxwright.game.model import RESERVED_IDS
from boxwright.problems import Problem, Where

BIN = ".bin"


def in_bin(games: File) -> tuple[str, ...]:
    """Return the names of the games in the bin of a folder of games."""
    return tuple(sorted(file.parent.name for file in (games / BIN).glob(f"*/{GAME}")))


def to_bin(games: File, name: str) -> Problem | None:
    """Move a game's folder into the bin, with all that is in it; or tell what bars the way."""
    return _moved(games / name, games / BIN)


def bring_back(games: File, name: str) -> Problem | None:
    """Move a game's folder out of the bin again, under a name that is free."""
    return _moved(games / BIN / name, games)


def _moved(folder: File, into: File) -> Problem | None:
    try:
        into.mkdir(exist_ok=True)
        folder.rename(into / free_name(into, folder.name))
    except OSError as error:
        where, why = Where(folder.name), error.strerror or str(error)
        return Problem.of("edit.unwritable", where, name=folder.name, why=why)
    return None


def free_name(folder: File, wish: str) -> str:
    """Return `wish`, or it with an addition, such that nothing in `folder` has that name yet.

    A name that is no folder's on some system, or has a meaning of its own in a game, gets
    an addition too.
    """
    base = f"{wish}-game" if wish in RESERVED_IDS or not is_portable(wish) else wish
    taken = {one.name.casefold() for one in folder.iterdir()}
    tries = (base if n == 1 else f"{base}-{n}" for n in range(1, len(taken) + 2))
    return next(name for name in tries if name.casefold() not in taken)
