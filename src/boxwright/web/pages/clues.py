"""The clues of a game as small sheets, and one at a time on the bench."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, HTTPException, Path, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import Field

from boxwright.build import ALSO
from boxwright.choose.needs import files_for
from boxwright.choose.offers import offers
from boxwright.game.commands import perform
from boxwright.game.commands.asked import FileName
from boxwright.game.model import Id
from boxwright.problems import Refused
from boxwright.puzzles.shelf import kind
from boxwright.web import trying
from boxwright.web.bench import pictures_of, version_of, with_titles
from boxwright.web.choices import givable
from boxwright.web.clue_values import (
    bench_values,
    offer_of,
    stamped,
    ways_of,
)
from boxwright.web.doing import IfMatch, tag_in
from boxwright.web.game import Game, TheGame
from boxwright.web.press import pressed
from boxwright.web.render import fragment, page
from boxwright.web.scene import scene_of
from boxwright.web.sent import Next, Sent
from boxwright.web.tables import choices_of_tables, contents_of
from boxwright.web.trying import InPath

router = APIRouter()

OTHER = "/-"  # no clue is called that
# An address has the game's state in it, so what it leads to stays.
FOR_A_DAY = {"Cache-Control": "private, max-age=86400, immutable"}  # not read by people


class NewClue(Sent):
    """What a new clue gives, what pupils do at it, and what it draws on."""

    gives: Id
    kind: Id
    content: FileName | None = None
    place: Annotated[str, Field(max_length=60)] = "start"


# All clues.


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show all clues."""
    scene = scene_of(game)
    listed = [
        (id, scene.name(clue.gives), scene.way(id), list(ways_of(game, id)))
        for id, clue in game.folder.game.clues.items()
    ]
    values = {"game": game, "clues": listed, "bench": None}
    return page(request, "clues", values | _adding(game))


def _adding(game: Game) -> dict[str, Any]:
    boxes = ((id, box.name) for id, box in game.folder.game.boxes.items())
    scene = scene_of(game)
    spots = ((one, scene.name(one)) for one in ("start", "table"))
    return {
        "givable": [(id, scene.name(id)) for id in givable(game.folder)],
        "tables": choices_of_tables(game),
        "places": [*spots, *boxes],
    }


@router.post("")
def add(game: TheGame, asked: NewClue, if_match: IfMatch = None) -> Next:
    """Add a clue, on the first table that serves where none is named, and go on to its bench."""
    serving = files_for(kind(asked.kind).FACTS, contents_of(game))
    args = {"content": next(iter(serving), None)} | asked.model_dump(exclude_none=True)
    moment = perform(game.history, "clue.add", args, tag_in(if_match), also=ALSO)
    assert moment.undo is not None, "what was just done can be undone"
    return Next(next=game.address("clues", str(moment.undo.args["id"])))


@router.get(f"{OTHER}/offers", response_class=HTMLResponse)
def offered(
    game: TheGame,
    gives: Annotated[str, Query(max_length=60)],
    code: Annotated[str | None, Query(max_length=2000)] = None,
    chosen: Annotated[str | None, Query(max_length=40)] = None,
) -> HTMLResponse:
    """Return what pupils could do: each kind, what it takes, whether it can carry such codes."""
    if gives not in givable(game.folder):
        raise HTTPException(404)
    try:
        found = offers(game.folder, gives, code, game.chance)
        values: dict[str, Any] = {"offers": [offer_of(game, one) for one in found], "problems": ()}
    except Refused as refused:
        values = {"offers": [], "problems": refused.problems}
    return _piece("clues_offers.html", values | {"chosen": chosen})


# One clue.


@router.get("/{clue}", response_class=HTMLResponse)
def at_first(request: Request, game: TheGame, clue: InPath) -> HTMLResponse:
    """Show the bench with the way of a clue that is done now."""
    if clue not in game.folder.game.clues:
        raise HTTPException(404)
    return bench(request, game, clue, scene_of(game).way(clue))


@router.get("/{clue}/{way}", response_class=HTMLResponse)
def bench(request: Request, game: TheGame, clue: InPath, way: InPath) -> HTMLResponse:
    """Show the bench with one way of a clue."""
    return page(request, "clues", bench_values(game, clue, way))


@router.get("/{clue}/{way}/sheets", response_class=HTMLResponse)
async def sheets(game: TheGame, clue: InPath, way: InPath) -> HTMLResponse:
    """Return a way's pupils' pages, small, or what keeps it from being made."""
    version_of(game, clue, way)
    try:
        found = await pressed(lambda: pictures_of(game, clue, way))
        pages = [
            (stamped(game, clue, way, "sheets", f"{at}.png"), alt)
            for at, (_, alt) in enumerate(found, 1)
        ]
        return _piece("clues_sheets.html", {"pages": pages, "problems": ()})
    except Refused as refused:
        problems = [with_titles(one) for one in refused.problems]
        return _piece("clues_sheets.html", {"pages": [], "problems": problems})


@router.get("/{clue}/{way}/sheets/{number}.png", response_class=Response)
async def picture(
    game: TheGame, clue: InPath, way: InPath, number: Annotated[int, Path(ge=1, le=20)]
) -> Response:
    """Return one small picture of a way's pupils' pages."""
    version_of(game, clue, way)
    found = await pressed(lambda: pictures_of(game, clue, way))
    if number > len(found):
        raise HTTPException(404)
    return Response(found[number - 1][0], media_type="image/png", headers=FOR_A_DAY)


def _piece(name: str, values: dict[str, Any]) -> HTMLResponse:
    return HTMLResponse(fragment(name, values), headers={"Cache-Control": "no-store"})


router.include_router(trying.router)
