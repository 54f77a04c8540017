"""Where each thing of a game may be put, and which line of its file says where it is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from boxwright.frozen import frozen_value
from boxwright.game.arranged import ArrangedGame
from boxwright.game.folder import Folder
from boxwright.game.model import START, TABLE
from boxwright.game.nesting import Nesting, boxes_within
from boxwright.problems import Path

Size = Literal["box", "small", "sheet", "lock"]


@frozen_value
class Mover:
    """The command that puts a thing elsewhere, and the argument that takes the new place.

    Where a way of a clue moves the thing while it is played, that way is what is changed,
    and `clue` names it: to change the thing's own line would move nothing.
    """

    command: str
    args: Mapping[str, Any]
    at: Path
    clue: str = ""


def size_of(folder: Folder, id: str) -> Size:
    """Return what a place must hold for the thing `id` to be put there."""
    game = folder.game
    if id in game.boxes:
        return "box"
    if id in game.locks:
        return "lock"
    return "small" if id in game.items else "sheet"


def targets(folder: Folder, nesting: Nesting, id: str) -> tuple[str, ...]:
    """Return where the thing `id` may be put: a box for a lock, else spots and boxes."""
    size = size_of(folder, id)
    boxes = tuple(one for one in folder.game.boxes if one not in nesting.left_out)
    if size == "lock":
        return boxes
    places = folder.room.places if folder.room is not None else {}
    able = tuple(place for place, one in places.items() if size in one.holds)
    within = boxes_within(nesting, id)
    return (START, TABLE, *able, *(box for box in boxes if box not in within))


def mover(folder: Folder, play: ArrangedGame | None, id: str, part: str = "") -> Mover:
    """Return how the thing `id`, or one part of a clue's sheet, is put elsewhere."""
    moved_by = _moved_by(folder, play, id)
    if moved_by is not None:
        clue, way = moved_by
        moves = dict(folder.game.clues[clue].versions[way].moves)
        args = {"clue": clue, "version": way, "moves": moves}
        return Mover("version.change", args, ("moves", id), clue)
    if part:
        way = way_of(folder, play, id)
        parts = dict(folder.game.clues[id].versions[way].parts)
        return Mover(
            "version.change", {"clue": id, "version": way, "parts": parts}, ("parts", part)
        )
    return Mover("thing.move", {"id": id} | _one_way(folder, play, id), ("to",))


def way_of(folder: Folder, play: ArrangedGame | None, clue: str) -> str:
    """Return the way in which a clue is made now; its first one where it is not in play."""
    if play is not None and clue in play.clues:
        return play.clues[clue].way
    return next(iter(folder.game.clues[clue].versions))


def _moved_by(folder: Folder, play: ArrangedGame | None, id: str) -> tuple[str, str] | None:
    for clue, one in play.clues.items() if play is not None else ():
        if id in folder.game.clues[clue].versions[one.way].moves:
            return clue, one.way
    return None


def _one_way(folder: Folder, play: ArrangedGame | None, id: str) -> dict[str, str]:
    """Return which way of a clue is meant, where its ways lie in different places."""
    if id not in folder.game.clues:
        return {}
    places = {one.place for one in folder.game.clues[id].versions.values()}
    return {"version": way_of(folder, play, id)} if len(places) > 1 else {}


def going_with(folder: Folder, id: str) -> tuple[str, ...]:
    """Return what goes when the thing `id` is removed: locks of a box, clues to what goes."""
    game = folder.game
    locks = tuple(lock for lock, one in game.locks.items() if one.closes == id)
    gone = (id, *locks)
    clues = (clue for clue, one in game.clues.items() if one.gives in gone and clue != id)
    return (*locks, *clues)


def left_behind(nesting: Nesting, id: str) -> tuple[str, ...]:
    """Return what lies in the box `id` itself, which lies where the box lay once that is gone."""
    inside = (one.inside for one in nesting if one.thing.id == id and one.thing.sort == "box")
    return tuple(dict.fromkeys(one.thing.id for things in inside for one in things))
