"""Things are hidden where pupils may reach: no heat, sockets, doors, drops, no climbing.

No exit is ever part of a game, so nothing lies at a door.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.game.model import Place
from boxwright.problems import Clash, Count, Finding, Problem, say

CODE = "place.unsafe"
# Common practice, no source: what a standing child takes without stretching, by age.
REACH_MM = ((7, 1200), (10, 1400), (13, 1600), (99, 1800))


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each place in use that is unsafe, or too high for the youngest."""
    for id in _used(edition):
        yield from dangers(about.folder, id, edition.game.ages[0])


def dangers(folder: Folder, id: str, youngest: int) -> Iterator[Finding]:
    """Yield what speaks against hiding things at a place; nothing where the room has no such."""
    place = folder.room.places.get(id) if folder.room is not None else None
    if place is not None:
        yield from _near(folder, id, place)
        yield from _high(folder, id, place, youngest)


def reach_mm(youngest: int) -> int:
    """Return how high a standing child of that age reaches without stretching."""
    return next(reach for age, reach in REACH_MM if youngest <= age)


def _used(edition: Edition) -> tuple[str, ...]:
    game = edition.game
    used = [box.place for box in game.boxes.values()]
    used += [item.place for item in game.items.values()]
    used += [place for sheet in edition.sheets.values() for place in sheet.parts.values()]
    return tuple(dict.fromkeys(used))


def _near(folder: Folder, id: str, place: Place) -> Iterator[Finding]:
    if place.near:
        where = folder.where("room.toml", ("places", id, "near"))
        found = tuple(say(f"place.near-{one}") for one in place.near)
        problem = Problem.of(CODE, where, name=place.name, id=id, dangers=found)
        yield Finding(problem, "fix", "declared", Clash(place.near, id))


def _high(folder: Folder, id: str, place: Place, youngest: int) -> Iterator[Finding]:
    reach = reach_mm(youngest)
    if place.height_mm is not None and place.height_mm > reach:
        where = folder.where("room.toml", ("places", id, "height_mm"))
        high, low = round(place.height_mm / 10), round(reach / 10)
        problem = Problem.of(
            "place.high", where, name=place.name, id=id, high=high, reach=low, age=youngest
        )
        yield Finding(problem, "fix", "declared", Count(reach, round(place.height_mm)))
