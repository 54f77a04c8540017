"""Changes to a game, each a named command under an address of its own; undo and redo."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from fastapi import APIRouter, Body, Header
from pydantic import BaseModel

from boxwright.game.commands import COMMANDS, Command, perform
from boxwright.game.history import Moment
from boxwright.problems import Problem, Where, refuse
from boxwright.web.game import TheGame
from boxwright.web.render import told

router = APIRouter(tags=["game"])

IfMatch = Annotated[str | None, Header(max_length=200)]


class Now(BaseModel):
    """Which state a game is in, and the words for what can be undone and done again."""

    tag: str
    undo: str | None
    redo: str | None


def now_of(moment: Moment) -> Now:
    """Return a moment as pages read it."""
    undo, redo = (one if one is None else told(one) for one in (moment.undo, moment.redo))
    return Now(tag=moment.tag, undo=undo, redo=redo)


def tag_in(if_match: str | None) -> str:
    """Return the state that a page knows; Refused where it names none."""
    if not if_match:
        refuse(Problem.of("edit.no-tag", Where("If-Match")))
    return if_match.removeprefix("W/").strip('"')


@router.get("/now")
def now(game: TheGame) -> Now:
    """Return the game's state: a page asks whether what it shows still stands."""
    return now_of(game.moment)


@router.post("/undo")
def undo(game: TheGame, if_match: IfMatch = None) -> Now:
    """Take the last change back."""
    return now_of(game.history.undo(tag_in(if_match)))


@router.post("/redo")
def redo(game: TheGame, if_match: IfMatch = None) -> Now:
    """Make the change again that was taken back last."""
    return now_of(game.history.redo(tag_in(if_match)))


def _doing(command: Command) -> Callable[..., Now]:
    """Return what answers to one command."""

    def do(game: TheGame, asked: Any, if_match: IfMatch = None) -> Now:
        args = asked.model_dump(exclude_unset=True)
        return now_of(perform(game.history, command.name, args, tag_in(if_match)))

    do.__annotations__["asked"] = Annotated[command.asks, Body()]
    return do


for _command in COMMANDS.values():
    router.post(f"/do/{_command.name}", name=_command.name, response_model=Now)(_doing(_command))
