"""Changes to a game, each a named command under an address of its own; undo and redo."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from fastapi import APIRouter, Body, Header, Path
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, ConfigDict, ValidatorFunctionWrapHandler, WrapValidator

from boxwright.build import ALSO
from boxwright.game.commands import COMMANDS, Command, perform
from boxwright.game.history import Moment
from boxwright.game.since import changed_since
from boxwright.problems import Problem, Where, refuse
from boxwright.web.game import TheGame
from boxwright.web.render import fragment, told

router = APIRouter(tags=["game"])

BUILT = ConfigDict(defer_build=False)  # FastAPI asks for a model's schema as soon as it is named
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


@router.get("/since/{tag}", response_class=HTMLResponse)
def since(game: TheGame, tag: Annotated[str, Path(max_length=200)]) -> HTMLResponse:
    """Return what changed since a state that a page knows, as a piece of a page."""
    html = fragment("since.html", {"files": changed_since(game.history, tag)})
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


@router.post("/undo")
def undo(game: TheGame, if_match: IfMatch = None) -> Now:
    """Take the last change back."""
    return now_of(game.history.undo(tag_in(if_match)))


@router.post("/redo")
def redo(game: TheGame, if_match: IfMatch = None) -> Now:
    """Make the change again that was taken back last."""
    return now_of(game.history.redo(tag_in(if_match)))


def _as_sent(value: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    """Let an object through as it is: the command judges it itself, in a teacher's words."""
    return value if isinstance(value, dict) else handler(value)


def _doing(command: Command) -> Callable[..., Now]:
    """Return what answers to one command."""

    def do(game: TheGame, asked: Any, if_match: IfMatch = None) -> Now:
        return now_of(perform(game.history, command.name, asked, tag_in(if_match), also=ALSO))

    asks: Any = type(command.asks.__name__, (command.asks,), {"model_config": BUILT})
    do.__annotations__["asked"] = Annotated[asks, WrapValidator(_as_sent), Body()]
    return do


for _command in COMMANDS.values():
    router.post(f"/do/{_command.name}", name=_command.name, response_model=Now)(_doing(_command))
