"""The room on a plan drawn to scale: places with what lies there, what speaks against them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.folder import Folder
from boxwright.game.model import Place, RoomFile
from boxwright.problems import Finding, Message, say
from boxwright.web.game import Game, TheGame
from boxwright.web.render import page

router = APIRouter()

FACILITIES = ("board", "projector", "catalogue", "scanner")
SETTINGS = ("classroom", "library")
METRE = 1000
RIGHT_HALF = 60


@dataclass(frozen=True, slots=True)
class Spot:
    """A place with its number on the plan; `x` and `y` are hundredths from its top left."""

    id: str
    number: int
    place: Place
    x: float | None
    y: float | None
    holds: tuple[Message, ...]
    dangers: tuple[Finding, ...]

    @property
    def takes(self) -> Message:
        """What can lie there."""
        return say(
            "page-room.takes", what=tuple(say(f"page-room.holds-{one}") for one in self.place.holds)
        )

    @property
    def turns_left(self) -> bool:
        """Whether its name stands on the left of its point, so that it stays on the plan."""
        return self.x is not None and self.x > RIGHT_HALF


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the room, or how to begin one."""
    folder = game.folder
    values = {"game": game, "room": folder.room, "settings": SETTINGS}
    if folder.room is None:
        return page(request, "room", values)
    return page(request, "room", values | _shown(game, folder.room))


def _shown(game: Game, room: RoomFile) -> dict[str, Any]:
    from boxwright.checks.other_places import reach_mm  # late: it brings all checks along

    folder, youngest = game.folder, game.folder.game.game.ages[0]
    arranged = arrange(folder, game.wishes)
    played = arranged.games[0].game if isinstance(arranged, Arranged) else None
    spots = [_spot(folder, played, number, id) for number, id in enumerate(room.places, start=1)]
    return {
        "spots": spots,
        "facilities": list(dict.fromkeys([*FACILITIES, *_asked_for(folder)])),
        "youngest": youngest,
        "reach": round(reach_mm(youngest) / 10),
        "metres": _metres(room),
    }


def _metres(room: RoomFile) -> tuple[list[int], list[int]]:
    """Return where the plan's lines stand, one for each metre."""
    length, breadth = room.room.plan_mm or (0.0, 0.0)
    return list(range(METRE, round(length), METRE)), list(range(METRE, round(breadth), METRE))


def _spot(folder: Folder, played: ArrangedGame | None, number: int, id: str) -> Spot:
    """Return a place as shown; `played` is the game of the first group, if it can be had."""
    from boxwright.checks.unsafe_place import dangers

    assert folder.room is not None
    place, plan = folder.room.places[id], folder.room.room.plan_mm
    x = y = None
    if place.at_mm is not None and plan is not None:
        x = round(100 * place.at_mm[0] / plan[0], 2)
        y = round(100 - 100 * place.at_mm[1] / plan[1], 2)
    found = tuple(dangers(folder, id, folder.game.game.ages[0]))
    lies = () if played is None else tuple(dict.fromkeys(_things(played, id)))
    return Spot(id, number, place, x, y, lies, found)


def _asked_for(folder: Folder) -> Iterator[str]:
    """Yield the facilities that ways of clues ask for."""
    for clue in folder.game.clues.values():
        for version in clue.versions.values():
            yield from version.facilities


def _things(game: ArrangedGame, id: str) -> Iterator[Message]:
    for thing in (*game.boxes, *game.items):
        if (game.boxes.get(thing) or game.items[thing]).place == id:
            yield say("page-room.lies-thing", name=game.name_of(thing))
    for clue, one in game.clues.items():
        if id in (one.place, *one.parts.values()):
            yield say("page-room.lies-sheet", clue=clue)
