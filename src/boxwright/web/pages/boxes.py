"""The game as boxes inside boxes."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from boxwright.web.game import TheGame
from boxwright.web.render import page

router = APIRouter()


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the boxes."""
    return page(request, "boxes", {"game": game, "boxes": game.folder.game.boxes})
