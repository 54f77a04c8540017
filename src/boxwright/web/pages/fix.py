"""Things to fix: what the checks find in the game as wished, the gravest first."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, Field

from boxwright.game.dismissed import bring_back as bring_back_one
from boxwright.game.dismissed import dismiss as dismiss_one
from boxwright.problems import say
from boxwright.text import duration
from boxwright.web.findings import SEVERITIES, about, does, edit_json, page_of, verdict
from boxwright.web.game import TheGame
from boxwright.web.pages.boxes import picks
from boxwright.web.render import fragment, page
from boxwright.web.scene import scene_of
from boxwright.web.sent import Sent

router = APIRouter()


class Which(Sent):
    """A finding, by its id."""

    finding: Annotated[str, Field(pattern=r"^[a-z2-7]{8}$")]


class Done(BaseModel):
    """Nothing more is to be told."""


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the page; what is found is asked for once it stands there."""
    return page(request, "fix", {"game": game, "edit_json": edit_json})


@router.get("/found", response_class=HTMLResponse)
def found(game: TheGame) -> HTMLResponse:
    """Show what the checks find."""
    verdict_, scene = verdict(game), scene_of(game)
    fewest, most = game.folder.game.game.groups
    values = {
        "game": game,
        "found": verdict_,
        "severities": SEVERITIES,
        "fewest": fewest,
        "most": most,
        "areas": tuple(say(f"page-fix.area-{area}") for area in verdict_.good),
        "name": scene.called,
        "about": about,
        "page_of": page_of,
        "pick": picks(game),
        "lasts": duration,
        "edit_json": edit_json,
        "does": lambda edit: does(edit, scene.called),
    }
    return HTMLResponse(fragment("fix_found.html", values), headers={"Cache-Control": "no-store"})


@router.post("/dismiss")
def dismiss(game: TheGame, asked: Which) -> Done:
    """Put a finding aside for good."""
    dismiss_one(game.path, asked.finding)
    return Done()


@router.post("/bring-back")
def bring_back(game: TheGame, asked: Which) -> Done:
    """Let a finding be told again."""
    bring_back_one(game.path, asked.finding)
    return Done()
