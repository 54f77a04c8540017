"""What was named in the place of a game folder, and what to type instead."""

from __future__ import annotations

from pathlib import Path

import click

from boxwright.choose import store
from boxwright.game.draft import GAME
from boxwright.messages import typed
from boxwright.problems import Problem, Where, refuse

SUFFIX = ".json"
SHOWN = 5


def refuse_unless_game(game: Path) -> None:
    """Raise Refused unless `game` is a folder with a game file."""
    if (game / GAME).is_file():
        return
    where = Where(str(game))
    if game.is_file():
        refuse(_instead("edition.file-for-folder", game))
    if not game.exists():
        refuse(Problem.of("edition.no-game", where, game=str(game), command=typed("new", game)))
    below = sorted(file.parent for file in game.glob(f"*/{GAME}"))
    if below:
        refuse(Problem.of("edition.game-below", where, game=str(game), command=_same(below[0])))
    found = tuple(sorted(one.name for one in game.iterdir()))
    if not found:
        refuse(Problem.of("edition.empty-folder", where, command=typed("new", game)))
    command = typed("new", game / "my-game")
    refuse(Problem.of("edition.no-game-file", where, found=found[:SHOWN], command=command))


def edition_file(file: Path) -> Path:
    """Return `file`, a printed set's own; Refused where it is none, or not in its game folder."""
    if file.suffix.lower() != SUFFIX or file.name == store.CURRENT:
        refuse(_instead("edition.no-edition", file))
    if not (store.game_of(file) / GAME).is_file():
        refuse(Problem.of("edition.astray", Where(str(file)), file=str(file)))
    return file


def _instead(code: str, file: Path) -> Problem:
    """Return the problem that `file` is not what is wanted, and the folder that may be meant."""
    folders = (file.absolute().parent, store.game_of(file))
    game = next((folder for folder in folders if (folder / GAME).is_file()), None)
    if game is None:
        return Problem.of(code, Where(str(file)), file=str(file))
    shown = file.parent if game == file.absolute().parent else store.game_of(file)
    return Problem.of(f"{code}-but", Where(str(file)), file=str(file), command=_same(shown))


def _same(game: Path) -> str:
    """Return the command that was typed, for another game."""
    return typed(click.get_current_context().info_name or "", game)
