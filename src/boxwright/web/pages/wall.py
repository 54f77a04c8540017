"""The wall, for a projector: the story, a clock for the back row, lids; never an answer."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel

from boxwright.build import Built
from boxwright.build.current import current_editions
from boxwright.game.arranged import Told
from boxwright.web.desk import TheDesk
from boxwright.web.game import Game, TheGame
from boxwright.web.pieces import Pieces
from boxwright.web.render import page
from boxwright.web.sessions import in_play

router = APIRouter()


class Session(BaseModel):
    """The session in play, if there is one: a wall that waits asks for it."""

    session: str | None


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Show the wall: before play the story waits there."""
    playing = in_play(desk, game)
    values = {
        "game": game,
        "playing": playing,
        "story": _story(game) if playing is None else playing.edition.game.story,
        "clock": None if playing is None else playing.clock(desk.clock.now()),
        "pieces": {} if playing is None else Pieces().of("wall", playing),
    }
    return page(request, "wall", values)


def _story(game: Game) -> Told | None:
    """Return the story as the printed set has it, or as it would; None where nobody can say."""
    kept = current_editions(game.path)
    if kept:
        return kept[0].game.story
    return game.built.edition.game.story if isinstance(game.built, Built) else None


@router.get("/now")
def now(game: TheGame, desk: TheDesk) -> Session:
    """Return the session in play."""
    playing = in_play(desk, game)
    return Session(session=None if playing is None else playing.session)
