"""Things are hidden where pupils may reach: no heat, sockets, doors, drops, no climbing.

No exit is ever part of a game, so nothing lies at a door.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from boxwright.checks import About
from boxwright.checks.other_places import elsewhere, lying, reach_mm, too_high
from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.game.model import Place
from boxwright.problems import Clash, Count, Edit, Finding, Problem, say

CODE = "place.unsafe"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each place in use that is unsafe, or too high for the youngest."""
    for id in dict.fromkeys(one.place for one in lying(edition)):
        for one in dangers(about.folder, id, edition.game.ages[0]):
            edit = _elsewhere(edition, about, id)
            yield replace(one, problem=replace(one.problem, edit=edit))


def dangers(folder: Folder, id: str, youngest: int) -> Iterator[Finding]:
    """Yield what speaks against hiding things at a place; nothing where the room has no such."""
    place = folder.room.places.get(id) if folder.room is not None else None
    if place is not None:
        yield from _near(folder, id, place)
        yield from _high(folder, id, place, youngest)


def _elsewhere(edition: Edition, about: About, id: str) -> Edit | None:
    """Return what empties a place, where but one thing lies there."""
    there = {one.path: one for one in lying(edition) if one.place == id}
    return elsewhere(edition, about, *there.values()) if len(there) == 1 else None


def _near(folder: Folder, id: str, place: Place) -> Iterator[Finding]:
    if place.near:
        where = folder.where("room.toml", ("places", id, "near"))
        found = tuple(say(f"place.near-{one}") for one in place.near)
        problem = Problem.of(CODE, where, name=place.name, id=id, dangers=found)
        yield Finding(problem, "fix", "declared", Clash(place.near, id))


def _high(folder: Folder, id: str, place: Place, youngest: int) -> Iterator[Finding]:
    if place.height_mm is not None and too_high(place, youngest):
        where = folder.where("room.toml", ("places", id, "height_mm"))
        reach = reach_mm(youngest)
        high, low = round(place.height_mm / 10), round(reach / 10)
        problem = Problem.of(
            "place.high", where, name=place.name, id=id, high=high, reach=low, age=youngest
        )
        yield Finding(problem, "fix", "declared", Count(reach, round(place.height_mm)))
