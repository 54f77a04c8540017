"""What a route is taken for: a walker's left, a turned page, a look-alike, a stop too many."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.route_map_sheet import Knows, Move, Place, Point, RouteMap
from boxwright.puzzles.route_map_solver import Reading, fitting, move_between

CLOCKWISE: tuple[Move, ...] = ("up", "right", "down", "left")


class Misreading(NamedTuple):
    """Moves taken in place of the right ones, why, and whether pupils could notice it."""

    moves: tuple[Move, ...]
    means: Message
    noticed: bool


def misreadings(sheet: RouteMap, knows: Knows, right: Reading) -> Iterator[Misreading]:
    """Yield what else the moves could come out as, the likeliest first; some may be alike."""
    moves = right.moves
    walker = as_the_walker_turns(moves)
    yield Misreading(walker, say("route-map.mistake-walker"), False)
    yield Misreading(_turned(moves, 2), say("route-map.mistake-upside-down"), True)
    yield from _look_alikes(sheet, knows, right)
    swapped = tuple({"left": "right", "right": "left"}.get(move, move) for move in moves)
    yield Misreading(swapped, say("route-map.mistake-sides"), False)  # type: ignore[arg-type]
    yield Misreading(_turned(moves, 2)[::-1], say("route-map.mistake-backwards"), False)
    yield Misreading(_turned(moves, 1), say("route-map.mistake-quarter"), True)
    if len(moves) > 1:
        yield Misreading(moves[1:], say("route-map.mistake-start"), True)


def as_the_walker_turns(moves: Sequence[Move]) -> tuple[Move, ...]:
    """Return the turns of someone who walks: the first move, then left or right from there."""
    turns: list[Move] = [moves[0]]
    for before, move in pairwise(moves):
        quarter = (CLOCKWISE.index(move) - CLOCKWISE.index(before)) % 4
        turns.append(CLOCKWISE[quarter])
    return tuple(turns)


def _turned(moves: Sequence[Move], quarters: int) -> tuple[Move, ...]:
    return tuple(CLOCKWISE[(CLOCKWISE.index(move) + quarters) % 4] for move in moves)


def _look_alikes(sheet: RouteMap, knows: Knows, right: Reading) -> Iterator[Misreading]:
    """Take a place for a stop of which only a part of its line is true."""
    for at, stop in enumerate(sheet.stops):
        fits = fitting(stop, sheet.places, knows)
        for place in sheet.places:
            if place in fits or not _shares(place, right.places[at]):
                continue
            way = (*right.places[:at], place, *right.places[at + 1 :])
            moves = _moves(sheet.start, way)
            if moves is not None:
                yield Misreading(moves, say("route-map.mistake-look-alike", number=at + 1), False)


def _shares(place: Place, other: Place) -> bool:
    """Tell whether two places that are known by their looks have any of them in common."""
    return bool(set(place.things) & set(other.things)) or (
        bool(place.things or other.things) and place.sort == other.sort
    )


def _moves(start: Point, way: Sequence[Place]) -> tuple[Move, ...] | None:
    points = [start, *(place.at for place in way)]
    moves = [move_between(here, there) for here, there in pairwise(points)]
    return None if None in moves else tuple(move for move in moves if move is not None)
