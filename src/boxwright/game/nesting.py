"""What lies in what: a game as it is packed, boxes in boxes, with what is in and on them.

Taken from the game as it is arranged, or, where something bars that, from what its file
wishes first: a game that cannot be played yet can still be looked at and mended.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal

from boxwright.frozen import frozen_value
from boxwright.game.arranged import ArrangedGame
from boxwright.game.folder import Folder
from boxwright.game.model import ANY_PLACE, START, TABLE, PlaceWish
from boxwright.game.names import wishes_of

NOWHERE = ""
"""Where things lie that have no place which there is."""

Sort = Literal["box", "item", "sheet"]


@frozen_value
class Lying:
    """A box, an item or a clue's sheet, and where it lies; `part` names one part of a sheet."""

    id: str
    sort: Sort
    place: str
    part: str = ""


@frozen_value
class Packed:
    """A thing, the locks that hang on it, and what lies in it."""

    thing: Lying
    locks: tuple[str, ...] = ()
    inside: tuple[Packed, ...] = ()


@frozen_value
class Spot:
    """The table, what is handed out, or a place of the room, with all that lies there."""

    id: str
    inside: tuple[Packed, ...]


@frozen_value
class Nesting:
    """A whole game: its spots, and the things that stay in the cupboard this time."""

    spots: tuple[Spot, ...]
    left_out: tuple[str, ...] = ()

    def __iter__(self) -> Iterator[Packed]:
        """Yield every thing that lies somewhere, boxes before what is in them."""
        for spot in self.spots:
            for one in spot.inside:
                yield from _all(one)


def as_played(folder: Folder, game: ArrangedGame) -> Nesting:
    """Return what lies in what in an arranged game."""
    things = [Lying(id, "box", box.place) for id, box in game.boxes.items()]
    things += [Lying(id, "item", item.place) for id, item in game.items.items()]
    for id, clue in game.clues.items():
        things += [Lying(id, "sheet", clue.place)]
        things += [Lying(id, "sheet", place, part) for part, place in clue.parts.items()]
    closes = {id: lock.closes for id, lock in game.locks.items()}
    playing = {*game.boxes, *game.locks, *game.items, *game.clues}
    file = folder.game
    known = (*file.boxes, *file.locks, *file.items, *file.clues)
    return nested(folder, things, closes, tuple(id for id in known if id not in playing))


def as_written(folder: Folder) -> Nesting:
    """Return what lies in what by the first wish of each thing that this room can meet."""
    game = folder.game
    things = [Lying(id, "box", _first(folder, box.place)) for id, box in game.boxes.items()]
    things += [Lying(id, "item", _first(folder, item.place)) for id, item in game.items.items()]
    for id, clue in game.clues.items():
        version = next(iter(clue.versions.values()))
        things.append(Lying(id, "sheet", _first(folder, version.place)))
        for part, wish in version.parts.items():
            things.append(Lying(id, "sheet", _first(folder, wish), part))
    return nested(folder, things, {id: lock.closes for id, lock in game.locks.items()})


def _first(folder: Folder, wish: PlaceWish) -> str:
    places = folder.room.places if folder.room is not None else {}
    for one in wishes_of(wish):
        if one.startswith(ANY_PLACE):
            tag = one.removeprefix(ANY_PLACE)
            tagged = next((id for id, place in places.items() if tag in place.tags), None)
            if tagged is not None:
                return tagged
        elif one in (TABLE, START) or one in folder.game.boxes or one in places:
            return one
    return NOWHERE


def nested(
    folder: Folder,
    things: Iterable[Lying],
    closes: Mapping[str, str],
    left_out: tuple[str, ...] = (),
) -> Nesting:
    """Return `things` in one another; what lies in itself or in no box of these is nowhere."""
    lying = tuple(things)
    boxes = {one.id: one.place for one in lying if one.sort == "box"}
    places = tuple(folder.room.places) if folder.room is not None else ()
    spots = (START, TABLE, *places)

    def settled(place: str) -> str:
        """Return `place`, or nowhere where it leads to no spot."""
        at, seen = place, set[str]()
        while at in boxes and at not in seen:
            seen.add(at)
            at = boxes[at]
        return place if at in spots else NOWHERE

    def packed(place: str) -> tuple[Packed, ...]:
        return tuple(_packed(one) for one in lying if settled(one.place) == place)

    def _packed(one: Lying) -> Packed:
        if one.sort != "box":
            return Packed(one)
        locks = tuple(lock for lock, box in closes.items() if box == one.id)
        return Packed(one, locks, () if settled(one.place) == NOWHERE else packed(one.id))

    lost = packed(NOWHERE)
    found = [Spot(id, packed(id)) for id in spots]
    return Nesting((*found, Spot(NOWHERE, lost)) if lost else tuple(found), left_out)


def _all(one: Packed) -> Iterator[Packed]:
    yield one
    for inner in one.inside:
        yield from _all(inner)


def boxes_within(nesting: Nesting, id: str) -> frozenset[str]:
    """Return the box `id` and every box in it, however deep."""
    for one in nesting:
        if one.thing.id == id and one.thing.sort == "box":
            return frozenset(inner.thing.id for inner in _all(one) if inner.thing.sort == "box")
    return frozenset()
