"""The game as boxes inside boxes on a shelf, each thing to be chosen, moved and changed."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, get_args
from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import HTMLResponse

from boxwright.build import about_of
from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import entry
from boxwright.game.targets import going_with, left_behind
from boxwright.game.ties import How
from boxwright.problems import Message, plain, say
from boxwright.web import contents
from boxwright.web.choices import SORTS, Sort, choices, givable, tools, wishes
from boxwright.web.findings import about, edit_json, verdict
from boxwright.web.game import Game, TheGame
from boxwright.web.render import fragment, page, told
from boxwright.web.scene import Scene, drawing, scene_of

router = APIRouter()

Id = Annotated[str | None, Query(max_length=40)]
WHEELED = ("number-wheels", "letter-wheels", "colour-wheels", "symbol-wheels")


@dataclass(frozen=True, slots=True)
class Shown:
    """A lock drawn with its code, and what is said of that code."""

    drawing: dict[str, Any]
    said: str


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame, thing: Id = None) -> HTMLResponse:
    """Show the shelf, or what keeps the game's files from being read."""
    if game.faults:
        return page(request, "boxes", {"game": game, "edit_json": edit_json})
    scene = scene_of(game)
    return page(request, "boxes", _panel(game, scene, thing) | wishes(scene.folder))


@router.get("/thing", response_class=HTMLResponse)
def panel(game: TheGame, thing: Id = None) -> HTMLResponse:
    """Show what is known of one thing, and what can be changed about it."""
    return _piece("boxes_thing.html", _panel(game, scene_of(game), thing))


@router.get("/add", response_class=HTMLResponse)
def add(game: TheGame, sort: Sort = "any", at: Id = None, gives: Id = None) -> HTMLResponse:
    """Ask what is to be known of a new thing, which is to be put at `at`."""
    scene = scene_of(game)
    if at is not None and not scene.knows(at):
        raise HTTPException(404)
    values = {"scene": scene, "sort": sort, "sorts": SORTS, "at": at or "table"}
    return _piece("boxes_add.html", values | choices(game, sort, gives))


@router.get("/findings", response_class=HTMLResponse)
def findings(game: TheGame) -> HTMLResponse:
    """Show the first of what the checks find, with marks for the shelf and the codes drawn."""
    found = verdict(game)
    shown = {} if found.edition is None else _drawings(game.folder, found.edition)
    values = {"game": game, "found": found, "drawings": shown, "about": about}
    return _piece("boxes_findings.html", values | {"pick": picks(game)})


def picks(game: Game) -> Callable[[str], str]:
    """Return what makes the address of the shelf with one thing chosen."""
    here = game.address("boxes")
    return lambda id: f"{here}{'&' if '?' in here else '?'}thing={quote(id, safe='')}"


def _piece(name: str, values: dict[str, Any]) -> HTMLResponse:
    return HTMLResponse(fragment(name, values), headers={"Cache-Control": "no-store"})


# What the pieces need.


def _panel(game: Game, scene: Scene, thing: str | None) -> dict[str, Any]:
    picked = thing if thing is not None and scene.knows(thing) else None
    goes = () if picked is None else going_with(scene.folder, picked)
    return {
        "game": game,
        "scene": scene,
        "picked": picked,
        "pick": picks(game),
        "hows": get_args(How),
        "wheeled": WHEELED,
        "tools": tools(scene.folder),
        "givable": givable(scene.folder),
        "going": tuple(_going(scene, picked, goes)) if picked is not None else (),
        "with_clue": any(one in scene.folder.game.clues for one in goes),
        "tied_json": lambda id: json.dumps([plain(one) for one in scene.ties(id)]),
        "clue_pages": _bench(game, scene, picked),
        "sizes": lambda spot: _sizes(scene.holds(spot)),
    }


def _sizes(held: str) -> tuple[Message, ...]:
    return tuple(say(f"page-boxes.size-{one}") for one in held.split())


def _bench(game: Game, scene: Scene, picked: str | None) -> tuple[str, ...]:
    """Return the address of a clue's own page, where there is such a page."""
    if picked is None or scene.sort(picked) != "clue":
        return ()
    return tuple(game.address("clues", picked) for one in contents.CONTENTS if one.stem == "clues")


def _going(scene: Scene, id: str, goes: tuple[str, ...]) -> list[Message]:
    """Return what is told before the thing `id` is removed."""
    said = [say("page-boxes.goes-too", name=scene.name(one)) for one in goes]
    left = [one for one in left_behind(scene.nesting, id) if one not in goes]
    if left:
        place = next(place for _, place in scene.places(id))
        names = tuple(map(scene.name, left))
        said.append(say("page-boxes.lies-then", names=names, place=scene.name(place)))
    return said


def _drawings(folder: Folder, edition: Edition) -> dict[str, Shown]:
    devices = next(iter(about_of(folder, edition).devices.values()))
    return {
        id: Shown(
            drawing(devices[id], code),
            told(say("page-boxes.drawn-code", code=entry(devices[id]).write(devices[id], code))),
        )
        for id, code in edition.codes.items()
    }
