"""Reads a route map as pupils do.

Finds the places that each line of the list fits, and looks which way it is from one to the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, degrees
from typing import NamedTuple

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.route_map_sheet import Knows, Move, Place, Point, RouteMap, Stop

CLEAR_ANGLE = 15.0  # degrees off an axis up to which a way can be told at a glance
BOUND = 100_000  # ways that are looked at, before giving up

_AXES: tuple[tuple[Move, float], ...] = (("right", 0), ("down", 90), ("left", 180), ("up", -90))


class Reading(NamedTuple):
    """One way along the list: the places in order, and the moves."""

    places: tuple[Place, ...]
    moves: tuple[Move, ...]


def named(place: Place) -> str:
    """Return the lines of a place's label as one."""
    return " ".join(place.label)


def fitting(stop: Stop, places: Sequence[Place], knows: Knows) -> list[Place]:
    """Return the places that one line of the list can mean."""
    meant = {one.place for one in knows.hints if one.hint == stop.hint}
    return [
        place
        for place in places
        if (not stop.name or named(place) == stop.name)
        and (stop.sort is None or place.sort == stop.sort)
        and set(stop.has) <= set(place.things)
        and set(stop.lacks).isdisjoint(place.things)
        and (not stop.hint or named(place) in meant)
    ]


def move_between(here: Point, there: Point) -> Move | None:
    """Return which way it is on the page; None if that cannot be told at a glance."""
    if here == there:
        return None
    angle = degrees(atan2(there.y - here.y, there.x - here.x))
    for move, axis in _AXES:
        if abs((angle - axis + 180) % 360 - 180) <= CLEAR_ANGLE:
            return move
    return None


def readings(sheet: RouteMap, knows: Knows) -> Iterator[Reading]:
    """Yield every way along the list on which each move can be told, different moves or not.

    Raises:
        GaveUp: after BOUND steps from a place to a place.
    """
    choices = [fitting(stop, sheet.places, knows) for stop in sheet.stops]
    looked = 0

    def onward(here: Point, at: int, way: Reading) -> Iterator[Reading]:
        nonlocal looked
        if at == len(choices):
            yield way
            return
        for place in choices[at]:
            looked += 1
            if looked > BOUND:
                raise GaveUp(BOUND)
            move = move_between(here, place.at)
            if move is not None:
                further = Reading((*way.places, place), (*way.moves, move))
                yield from onward(place.at, at + 1, further)

    yield from onward(sheet.start, 0, Reading((), ()))
