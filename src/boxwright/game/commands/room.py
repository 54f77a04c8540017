"""The room: what it is, and the places in it where things are put or hidden."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from boxwright.game.commands.asked import Asked, given, held
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.commands.things import put
from boxwright.game.draft import GAME, ROOM
from boxwright.game.model import Facility, Id, Millimetres, Name, Setting
from boxwright.game.uses import uses
from boxwright.problems import Message, Problem, Where, refuse, say

At = Annotated[float, Field(ge=0, le=100_000)]
Spot = tuple[At, At]


class RoomDescribe(Asked):
    """What the room is; None takes a field away. A game without a room gets one by its name."""

    name: Name | None = None
    setting: Setting | None = None
    facilities: Annotated[tuple[Facility, ...], Field(max_length=40)] | None = None
    figures: Annotated[tuple[Name, ...], Field(max_length=40)] | None = None
    plan_mm: tuple[Millimetres, Millimetres] | None = None
    north: Annotated[float, Field(ge=0, lt=360)] | None = None


class PlaceAsked(Asked):
    """What a place is, but for its name."""

    say: Annotated[str, StringConstraints(min_length=2, max_length=12)] | None = None
    at_mm: Spot | None = None
    height_mm: Annotated[float, Field(ge=0, le=10_000)] | None = None
    holds: Annotated[tuple[Literal["sheet", "small", "box"], ...], Field(max_length=3)] | None = (
        None
    )
    tags: Annotated[tuple[Id, ...], Field(max_length=40)] | None = None
    near: (
        Annotated[tuple[Literal["heat", "socket", "door", "drop"], ...], Field(max_length=4)] | None
    ) = None


class PlaceAdd(PlaceAsked):
    """A new place."""

    name: Name


class PlaceChange(PlaceAsked):
    """Fields of a place; None takes one away."""

    place: Id
    name: Name | None = None


class PlaceMove(Asked):
    """Where a place is on the plan, in mm from its corner."""

    place: Id
    at_mm: Spot


class PlaceRemove(Asked):
    """A place that the room does not have any more."""

    place: Id


def _describe(desk: Desk, asked: RoomDescribe) -> Message:
    values = given(asked)
    if not desk.has(ROOM):
        if asked.name is None:
            refuse(Problem.of("change.no-room", Where(ROOM)))
        id = desk.fresh_id(asked.name, "room", ())
        desk.begin(ROOM, {"id": id, **held(asked)})
    else:
        put(desk.table(ROOM, "room"), values)
    return say("change.room-described", fields=tuple(values))


def _places(desk: Desk) -> Any:
    if not desk.has(ROOM):
        refuse(Problem.of("change.no-room", Where(ROOM)))
    return desk.table(ROOM, "places")


def _add(desk: Desk, asked: PlaceAdd) -> Message:
    id = desk.fresh_id(asked.name, "place")
    _places(desk)[id] = {"name": asked.name, **held(asked)}
    return say("change.place-added", id=id, name=asked.name)


def _place(desk: Desk, id: str) -> Any:
    places = _places(desk)
    if id not in places:
        choices = tuple(places) or (say("game.none-yet"),)
        refuse(Problem.of("change.no-place", Where(ROOM), id=id, choices=choices))
    return places[id]


def _change(desk: Desk, asked: PlaceChange) -> Message:
    place = _place(desk, asked.place)
    name = place.get("name", asked.place)
    put(place, given(asked, "place"))
    return say("change.place-changed", id=asked.place, name=name)


def _move(desk: Desk, asked: PlaceMove) -> Message:
    place = _place(desk, asked.place)
    put(place, given(asked, "place"))
    return say("change.place-moved", id=asked.place, name=place.get("name", asked.place))


def _remove(desk: Desk, asked: PlaceRemove) -> Message:
    """Take a place away; a list of wishes may go on naming it, for it may be another room's."""
    name = _place(desk, asked.place).get("name", asked.place)
    used = [path for _, path in uses(desk.data(GAME), asked.place) if not isinstance(path[-1], int)]
    if used:
        places = [desk.file(GAME).where(path) for path in used]
        lines = tuple(dict.fromkeys(one.line or 0 for one in places))
        refuse(Problem.of("change.place-used", places[0], id=asked.place, lines=lines))
    del _places(desk)[asked.place]
    return say("change.place-removed", id=asked.place, name=name)


COMMANDS = (
    Command("room.describe", RoomDescribe, _describe),
    Command("place.add", PlaceAdd, _add),
    Command("place.change", PlaceChange, _change),
    Command("place.move", PlaceMove, _move),
    Command("place.remove", PlaceRemove, _remove),
)
