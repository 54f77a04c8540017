"""All games in the studio's folder; a new one, or a copy of an example."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Request, UploadFile
from fastapi.responses import HTMLResponse, Response
from pydantic import Field

from boxwright.choose.store import copy_game
from boxwright.game.archive import Taken, pack, unpack
from boxwright.game.bin import bring_back, in_bin, to_bin
from boxwright.game.choosing import Wishes
from boxwright.game.examples import examples
from boxwright.game.folder import Folder
from boxwright.game.history import History
from boxwright.game.start import start
from boxwright.problems import Problem, Where, refuse, say
from boxwright.text import better_id
from boxwright.web.files import file_answer
from boxwright.web.game import Game, TheGame, TheStudio
from boxwright.web.render import page, told
from boxwright.web.sent import Next, Said, Sent
from boxwright.web.studio import Studio

router = APIRouter()

LONGEST_NAME = 100
Age = Annotated[int, Field(ge=3, le=99)]


class NewGame(Sent):
    """The title of a new game, and who plays it."""

    title: Annotated[str, Field(max_length=200)]
    youngest: Age = 9
    oldest: Age = 11


class Copied(Sent):
    """Which example is to be copied."""

    of: Annotated[str, Field(max_length=120)]


class Binned(Sent):
    """Which game of the bin is meant."""

    name: Annotated[str, Field(max_length=120)]


@router.get("", response_class=HTMLResponse)
def show(request: Request, studio: TheStudio) -> HTMLResponse:
    """Show all games."""
    games = [opened(studio, name) for name in studio.names()]
    values = {
        "games": games,
        "examples": _examples(studio),
        "bin": in_bin(studio.games),
        "folder": str(studio.games),
    }
    return page(request, "games", values)


@router.post("")
def begin(studio: TheStudio, asked: NewGame) -> Next:
    """Start a new game."""
    name = studio.free_name(better_id(asked.title, "my-game"))
    problem = start(studio.games / name, asked.title, (asked.youngest, asked.oldest))
    if problem is not None:
        refuse(problem)
    return Next(next=address_of(name))


@router.post("/copy")
def copy(studio: TheStudio, asked: Copied) -> Next:
    """Copy an example into the studio's folder."""
    source = examples().get(asked.of)
    if source is None:
        raise HTTPException(404)
    name = studio.free_name(asked.of)
    copy_folder(source, studio.games / name)
    return Next(next=address_of(name))


@router.post("/{game}/copy")
def copy_own(studio: TheStudio, game: TheGame) -> Said:
    """Copy a game of one's own, beside it."""
    name = studio.free_name(game.name)
    copy_folder(game.path, studio.games / name)
    return Said(said=told(say("page-games.copied", name=name)))


# In and out, and the bin.


@router.get("/{game}/zip", response_class=Response)
def packed(game: TheGame) -> Response:
    """Return a game's files as one, to be handed on."""
    return file_answer(f"{game.name}.zip", pack(game.path), "application/zip")


@router.post("/take-in")
def take_in(studio: TheStudio, file: UploadFile) -> Next:
    """Take in a game that was handed on; Refused with what is wrong, and nothing has changed."""
    taken = unpack(file.file.read(), studio.games, (file.filename or "")[:LONGEST_NAME])
    if not isinstance(taken, Taken):
        refuse(*taken)
    return Next(next=address_of(taken.name))


@router.post("/{game}/bin")
def put_into_bin(studio: TheStudio, game: TheGame) -> Said:
    """Move a game into the bin."""
    problem = to_bin(studio.games, game.name)
    if problem is not None:
        refuse(problem)
    return Said(said=told(say("page-games.binned", title=game.title)))


@router.post("/back")
def take_back(studio: TheStudio, asked: Binned) -> Said:
    """Bring a game back out of the bin."""
    if asked.name not in in_bin(studio.games):
        raise HTTPException(404)
    problem = bring_back(studio.games, asked.name)
    if problem is not None:
        refuse(problem)
    return Said(said=told(say("page-games.brought-back", name=asked.name)))


def copy_folder(source: Path, target: Path) -> None:
    """Copy a game folder without what was made of it; raises Refused where it cannot be written."""
    try:
        copy_game(source, target)
    except OSError as error:
        why = error.strerror or str(error)
        where = Where(str(target))
        refuse(Problem.of("page-games.unwritable", where, folder=str(target), why=why))


def opened(studio: Studio, name: str) -> Game:
    """Return the game `name`, of which it is known that it is there."""
    path = studio.games / name
    history = History(path)
    return Game(studio, name, path, history, history.now(), Wishes())


def address_of(name: str) -> str:
    """Return the address of a game's first page."""
    return f"/games/{quote(name, safe='')}/boxes"


def _examples(studio: Studio) -> list[tuple[str, Folder]]:
    """Return the examples that can be read, by name."""
    from boxwright.game.folder import read_game

    found = ((name, read_game(path)) for name, path in examples().items())
    return [(name, folder) for name, folder in found if isinstance(folder, Folder)]
