"""Another place for a thing, where none has to be chosen.

That is the next place on the thing's own list of wishes, or the one place of the room that
is free and can hold it. What a clue leads to stays where it is, and so does what a way of
a clue moves.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.checks import About
from boxwright.checks.reach import path_of
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.choose.ways import part_name
from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME
from boxwright.game.model import Place
from boxwright.game.names import wishes_of
from boxwright.game.placing import Size
from boxwright.problems import Edit, Path

# Common practice, no source: what a standing child takes without stretching, by age.
REACH_MM = ((7, 1200), (10, 1400), (13, 1600), (99, 1800))


@frozen_value
class Lying:
    """A thing, where it lies, and where its wish for that stands in the game file."""

    thing: str
    place: str
    size: Size
    path: Path


def reach_mm(youngest: int) -> int:
    """Return how high a standing child of that age reaches without stretching."""
    return next(reach for age, reach in REACH_MM if youngest <= age)


def too_high(place: Place, youngest: int) -> bool:
    """Tell whether a place is out of the reach of the youngest."""
    return place.height_mm is not None and place.height_mm > reach_mm(youngest)


def lying(edition: Edition) -> Iterator[Lying]:
    """Yield everything that lies somewhere: boxes, items, and parts of sheets."""
    game = edition.game
    for id, box in game.boxes.items():
        yield Lying(id, box.place, "box", ("boxes", id, "place"))
    for id, item in game.items.items():
        yield Lying(id, item.place, "small", ("items", id, "place"))
    for clue, sheet in edition.sheets.items():
        for part, place in sheet.parts.items():
            name = part_name(clue, part)
            yield Lying(clue, place, "sheet", path_of(edition, name))


def where_lies(edition: Edition, thing: str) -> Lying:
    """Return where a box or an item lies."""
    return next(one for one in lying(edition) if one.thing == thing)


def elsewhere(edition: Edition, about: About, one: Lying) -> Edit | None:
    """Return what puts a thing to another place, if there is nothing to choose."""
    if not may_move(edition, about, one):
        return None
    left = tuple(wish for wish in _wishes(about, one.path) if wish != one.place)
    good = _good(edition, about, one)
    if left and left[0] in good:
        return change(about, *one.path, to=left[0] if len(left) == 1 else list(left))
    taken = {other.place for other in lying(edition)}
    free = [place for place in good if place not in taken]
    return change(about, *one.path, to=free[0]) if len(free) == 1 else None


def may_move(edition: Edition, about: About, one: Lying) -> bool:
    """Tell whether nothing but its wish says where a thing lies, or must lie."""
    led_to = {clue.gives for clue in edition.game.clues.values()}
    ways = (way for clue in about.folder.game.clues.values() for way in clue.versions.values())
    hosted = one.thing in edition.game.clues and edition.game.clues[one.thing].on is not None
    return (
        not led_to & {one.thing, one.place}
        and not hosted
        and not any(one.thing in way.moves for way in ways)
    )


def _wishes(about: About, path: Path) -> tuple[str, ...]:
    """Return the wishes that stand at `path`, first wish first; none where nothing stands."""
    node: Any = about.folder.files[GAME].data
    for step in path:
        if step not in node:
            return ()
        node = node[step]
    return tuple(wishes_of(node))


def _good(edition: Edition, about: About, one: Lying) -> tuple[str, ...]:
    """Return the places that can hold a thing, are safe, and are led to by no clue."""
    led_to = {clue.gives for clue in edition.game.clues.values()}
    room = about.folder.room
    return tuple(
        id
        for id, place in (room.places.items() if room is not None else ())
        if one.size in place.holds
        and not place.near
        and not too_high(place, edition.game.ages[0])
        and id not in {one.place} | led_to
    )
