"""Makes a route map: draws lots for the places, lays them out, and tells the stops."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import Level
from boxwright.messages import words
from boxwright.problems import say
from boxwright.puzzles.route_map_country import features, stream_and_track
from boxwright.puzzles.route_map_layout import SIDES, Room, Size, laid_out
from boxwright.puzzles.route_map_own import LEAST_UNUSED, OwnPlace
from boxwright.puzzles.route_map_sheet import (
    BUILDINGS,
    HEIGHT,
    WIDTH,
    Knows,
    Meaning,
    Move,
    Place,
    Point,
    RouteMap,
    Stop,
    Story,
)
from boxwright.puzzles.route_map_telling import told

UNUSED: dict[Level, int] = {"easier": 8, "ordinary": 9, "harder": 10, "hardest": 12}
NAMES = 24  # in the catalogue

# What things take up, in millimetres of the map, a gap of 3 included. A sign of a label is
# as large as on the smallest map that is printed, which has text of 18 pt.
START = Size(26.0, 12.0)
BUILDING = Size(29.0, 17.0)
DRAWING = 12.0  # high and wide, without its things
SPOT = 6.0
EM, PITCH, GAP = 7.3, 8.0, 3.0
SIGN_WIDTHS = {" ": 0.28} | dict.fromkeys("fijlrtI.,'’-", 0.36) | dict.fromkeys("mwMWOQ", 0.84)
SIGN_WIDTH, CAPITAL_WIDTH = 0.58, 0.72

TRIES = 40


class LayoutError(Exception):
    """No room was found where there must be some: a fault of this module."""


@frozen_value
class Chosen:
    """Places before they have their places: what is drawn, in the order of the list, then the rest.

    `stops` tell as many of the first places.
    """

    stops: tuple[Stop, ...]
    places: tuple[Place, ...]
    knows: Knows = field(default_factory=Knows)


def drawn_places(moves: int, level: Level, language: str, dice: Dice) -> Chosen:
    """Return places of our own: with names where it is easy, else told by their looks."""
    others = UNUSED[level]
    nowhere = Point(0.0, 0.0)
    if level == "easier":
        names = [words(say(f"route-map.name-{at}"), language) for at in range(NAMES)]
        labels = dice.sample(names, moves + others)
        places = [Place(nowhere, dice.pick(BUILDINGS), (), (name,)) for name in labels]
        return Chosen(tuple(Stop(name=name) for name in labels[:moves]), tuple(places))
    looks, stops = told(moves, others, level, dice)
    return Chosen(tuple(stops), tuple(Place(nowhere, one.sort, one.things) for one in looks))


def own_choice(places: Sequence[OwnPlace], moves: int, others: int, by_hints: bool) -> Chosen:
    """Return the teacher's places: the first ones that can be told as stops, then the first rest.

    Args:
        places: what there is, in the order of preference.
        moves: how many stops there must be.
        others: how many more places at the most.
        by_hints: whether the list has hints in place of names.
    """
    stops = [one for one in places if one.hint or not by_hints][:moves]
    rest = [one for one in places if one not in stops][:others]
    hints = [Meaning(one.hint, one.name) for one in (*stops, *rest) if one.hint and by_hints]
    return Chosen(
        tuple(Stop(hint=one.hint) if by_hints else Stop(name=one.name) for one in stops),
        tuple(Place(Point(0.0, 0.0), "spot", (), one.lines) for one in (*stops, *rest)),
        Knows(tuple(hints)),
    )


def size_of(place: Place) -> Size:
    """Return what a place takes up on the map."""
    if not place.label:
        return BUILDING
    drawing = SPOT if place.sort == "spot" else DRAWING
    wide = max(drawing, *(_width(line) for line in place.label)) + GAP
    below = PITCH * len(place.label)
    return Size(wide, drawing + below + GAP, below / 2)


def _width(text: str) -> float:
    return EM * sum(
        SIGN_WIDTHS.get(sign, CAPITAL_WIDTH if sign.isupper() else SIGN_WIDTH) for sign in text
    )


def placed(chosen: Chosen, moves: Sequence[Move], story: Story, dice: Dice) -> RouteMap | None:
    """Return the map with everything in its place; None where no room was found."""
    sizes = [size_of(place) for place in chosen.places]
    found = laid_out(moves, [START, *sizes[: len(moves)]], sizes[len(moves) :], dice)
    if found is None:
        return None
    (start, *stops), others = found
    rooms = [
        Room(start, START),
        *map(Room, (*stops, *others), sizes),
        *SIDES,
    ]
    stream, track = stream_and_track(rooms, dice.child("lines"))
    places = [
        Place(at, place.sort, place.things, place.label)
        for at, place in zip((*stops, *others), chosen.places, strict=True)
    ]
    return RouteMap(
        width=WIDTH,
        height=HEIGHT,
        start=start,
        places=tuple(dice.shuffled(places)),
        stops=chosen.stops,
        story=story,
        stream=stream,
        track=track,
        features=features(rooms, (stream, track), dice.child("features")),
    )


def own_map(
    places: Sequence[OwnPlace],
    moves: Sequence[Move],
    story: Story,
    level: Level,
    dice: Dice | None,
) -> tuple[RouteMap, Knows] | None:
    """Return a map of the teacher's places, or None where their names find no room on it.

    Without `dice` it is the one with the shortest names and the fewest places, which is
    also what is made where chance finds none.
    """
    by_hints, others = level in ("harder", "hardest"), UNUSED[level]
    for trial in range(4 if dice else 0):
        assert dice is not None
        lots = dice.child("own", trial)
        chosen = own_choice(lots.shuffled(places), len(moves), others, by_hints)
        found = placed(chosen, moves, story, lots)
        if found is not None:
            return found, chosen.knows
    return _surest(places, moves, story, by_hints)


def _surest(
    places: Sequence[OwnPlace], moves: Sequence[Move], story: Story, by_hints: bool
) -> tuple[RouteMap, Knows] | None:
    shortest = sorted(places, key=lambda one: (max(map(len, one.lines)), len(one.lines)))
    chosen = own_choice(shortest, len(moves), LEAST_UNUSED, by_hints)
    for trial in range(4):
        found = placed(chosen, moves, story, Dice(f"surest {trial}"))  # not read by people
        if found is not None:
            return found, chosen.knows
    return None


def drawn_map(
    moves: Sequence[Move], story: Story, level: Level, language: str, dice: Dice
) -> RouteMap:
    """Return a map of our own places."""
    for trial in range(TRIES):
        lots = dice.child("drawn", trial)
        chosen = drawn_places(len(moves), level, language, lots)
        found = placed(chosen, moves, story, lots)
        if found is not None:
            return found
    raise LayoutError(f"{moves} at {level}")
