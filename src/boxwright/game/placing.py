"""Where everything goes: wishes for places settled against the room that there is.

The first wish that exists, is in play and can hold the thing is taken. `any TAG` is the
first place with that tag, in the order of the room's file, that can hold the thing and
holds nothing yet; places named outright are given away before any of these.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.in_play import InPlay
from boxwright.game.model import ANY_PLACE, START, TABLE, PlaceWish
from boxwright.game.names import wishes_of
from boxwright.problems import Path, Problem, say

Size = Literal["sheet", "small", "box"]


@frozen_value
class Thing:
    """Something to be put somewhere: where its wish stands, and the wish."""

    path: Path
    name: str
    size: Size
    wish: PlaceWish


def things_to_place(folder: Folder, play: InPlay) -> Iterator[Thing]:
    """Yield what is to be put somewhere: boxes, items, sheets, and parts of sheets."""
    game = folder.game
    for id in (id for id in game.boxes if id in play.ids):
        yield Thing(("boxes", id, "place"), id, "box", play.place(game, id))
    for id in (id for id in game.items if id in play.ids):
        yield Thing(("items", id, "place"), id, "small", play.place(game, id))
    for id, one in play.chosen.items():
        yield Thing((*one.path, "place"), id, "sheet", one.version.place)
        for part, wish in one.version.parts.items():
            yield Thing((*one.path, "parts", part), id, "sheet", wish)


def place_all(folder: Folder, play: InPlay) -> tuple[dict[Path, str], list[Problem]]:
    """Return the place of each thing by the path of its wish, and what has none."""
    things = list(things_to_place(folder, play))
    found: dict[Path, str] = {}
    open_wishes: list[Thing] = []
    for thing in things:
        first = _first(folder, play, thing)
        if first is not None and first.startswith(ANY_PLACE):
            open_wishes.append(thing)
        elif first is not None:
            found[thing.path] = first
    for thing in open_wishes:
        free = _free(folder, play, thing, set(found.values()))
        if free is not None:
            found[thing.path] = free
    problems = [_nowhere(folder, play, one) for one in things if one.path not in found]
    return found, problems or list(_nested(folder, play, found))


def _first(folder: Folder, play: InPlay, thing: Thing) -> str | None:
    """Return the first wish that may come true; `any TAG` stays as it is."""
    return next((one for one in wishes_of(thing.wish) if _may(folder, play, thing, one)), None)


def _may(folder: Folder, play: InPlay, thing: Thing, wish: str) -> bool:
    if wish in (TABLE, START):
        return True
    if wish in folder.game.boxes:
        return wish in play.ids and wish != thing.name
    places = folder.room.places if folder.room is not None else {}
    if wish.startswith(ANY_PLACE):
        tag = wish.removeprefix(ANY_PLACE)
        return any(tag in place.tags and thing.size in place.holds for place in places.values())
    return wish in places and thing.size in places[wish].holds


def _free(folder: Folder, play: InPlay, thing: Thing, taken: set[str]) -> str | None:
    for wish in wishes_of(thing.wish):
        if not wish.startswith(ANY_PLACE):
            if _may(folder, play, thing, wish):
                return wish
            continue
        tag = wish.removeprefix(ANY_PLACE)
        for id, place in folder.room.places.items() if folder.room is not None else ():
            if tag in place.tags and thing.size in place.holds and id not in taken:
                return id
    return None


def _nowhere(folder: Folder, play: InPlay, thing: Thing) -> Problem:
    where = folder.where(GAME, thing.path)
    wishes = wishes_of(thing.wish)
    absent = [one for one in wishes if one in folder.game.boxes and one not in play.ids]
    if folder.room is None:
        boxes = tuple(id for id in folder.game.boxes if id in play.ids and id != thing.name)
        return Problem.of(
            "arrange.no-room", where, id=thing.name, wishes=wishes, choices=(*boxes, TABLE, START)
        )
    able = tuple(id for id, place in folder.room.places.items() if thing.size in place.holds)
    code = "arrange.nowhere" if able else "arrange.nowhere-at-all"
    return Problem.of(
        "arrange.nowhere-box" if absent else code,
        where,
        id=thing.name,
        wishes=wishes,
        size=say(f"arrange.size.{thing.size}"),
        room=folder.room.room.name,
        choices=able,
        box=absent[0] if absent else "",
    )


def _nested(folder: Folder, play: InPlay, found: Mapping[Path, str]) -> Iterator[Problem]:
    """Yield a Problem for each box that lies, by way of others, in itself."""
    holder = {id: found[("boxes", id, "place")] for id in folder.game.boxes if id in play.ids}
    for id, first in holder.items():
        at, seen = first, {id}
        while at in holder and at not in seen:
            seen.add(at)
            at = holder[at]
        if at == id:
            where = folder.where(GAME, ("boxes", id, "place"))
            yield Problem.of("arrange.box-in-itself", where, id=id, other=first)
