"""Where the stops of a route stand, and the places that are none: up is up at a glance.

Every leg lies well within the angle at which its direction can be told; no place lies
near a leg that does not lead to it; nothing touches anything.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import radians, tan
from typing import NamedTuple

from boxwright.dice import Dice
from boxwright.puzzles.route_map_sheet import HEIGHT, WIDTH, Move, Point
from boxwright.text import mm

STEEPEST = tan(radians(11.0))  # of a leg against its axis; a reader is promised 15 degrees
STEP = 1.0  # mm, more than side by side
WANDER = (1.8, 2.5)  # mm, off the straight rows and columns
ROUTES, FILLINGS, DARTS = 1500, 12, 1200
EDGE_WORDS = 9.0  # mm, half of the frame kept free for the words in the middle of its sides


class Size(NamedTuple):
    """What a place takes up, its label included, and how far its middle is below the drawing's."""

    width: float
    height: float
    drop: float = 0.0


class Room:
    """A place on the map, `at` the middle of its drawing, with what it takes up about `middle`."""

    __slots__ = ("at", "middle", "size")

    def __init__(self, at: Point, size: Size) -> None:
        self.at, self.size = at, size
        self.middle = Point(at.x, at.y + size.drop)  # kept: it is asked for thousands of times

    def touches(self, other: Room) -> bool:
        """Tell whether the two overlap."""
        one, two, mine, its = self.middle, other.middle, self.size, other.size
        return (
            abs(one.x - two.x) < (mine.width + its.width) / 2
            and abs(one.y - two.y) < (mine.height + its.height) / 2
        )

    def crossed(self, one: Point, two: Point) -> bool:
        """Tell whether the straight line from `one` to `two` passes over it (Liang and Barsky)."""
        enters, leaves = 0.0, 1.0
        for start, end, middle, breadth in (
            (one.x, two.x, self.middle.x, self.size.width),
            (one.y, two.y, self.middle.y, self.size.height),
        ):
            low, high = middle - breadth / 2 - start, middle + breadth / 2 - start
            if start == end:
                if low > 0 or high < 0:
                    return False
                continue
            shares = sorted((low / (end - start), high / (end - start)))
            enters, leaves = max(enters, shares[0]), min(leaves, shares[1])
        return enters <= leaves

    def inside(self) -> bool:
        """Tell whether all of it lies on the map."""
        across, down = self.size.width / 2, self.size.height / 2
        x, y = self.middle.x, self.middle.y
        return across <= x <= WIDTH - across and down <= y <= HEIGHT - down


# The words for the four directions stand in the middle of the map's sides.
SIDES = (
    Room(Point(WIDTH / 2, 0), Size(3 * EDGE_WORDS, EDGE_WORDS)),
    Room(Point(WIDTH / 2, HEIGHT), Size(3 * EDGE_WORDS, EDGE_WORDS)),
    Room(Point(0, HEIGHT / 2), Size(2 * EDGE_WORDS, 2 * EDGE_WORDS)),
    Room(Point(WIDTH, HEIGHT / 2), Size(2 * EDGE_WORDS, 2 * EDGE_WORDS)),
)

_WAYS: dict[Move, tuple[int, int]] = {
    "up": (0, -1),
    "down": (0, 1),
    "left": (-1, 0),
    "right": (1, 0),
}


def laid_out(
    moves: Sequence[Move], stops: Sequence[Size], others: Sequence[Size], dice: Dice
) -> tuple[list[Point], list[Point]] | None:
    """Return where the start and the stops stand, and where the others do.

    Args:
        moves: what the legs must show, each at a right angle to the last.
        stops: sizes of the start and of each stop.
        others: sizes of places that no leg leads to.
        dice: for every choice.

    Returns:
        None where no room was found in a bounded number of trials.
    """
    fillings = 0
    for _ in range(ROUTES):
        route = _route(moves, stops, dice)
        if route is None:
            continue
        found = _others(route, others, dice)
        if found is not None:
            return [room.at for room in route], found
        fillings += 1
        if fillings == FILLINGS:
            break
    return None


def _route(moves: Sequence[Move], sizes: Sequence[Size], dice: Dice) -> list[Room] | None:
    across = _levels([_WAYS[move][0] for move in moves], [s.width for s in sizes], WIDTH, dice)
    down = _levels([_WAYS[move][1] for move in moves], [s.height for s in sizes], HEIGHT, dice)
    if across is None or down is None:
        return None
    rooms = [
        Room(
            Point(
                mm(x + _wander(WANDER[0], dice)),
                mm(y - size.drop + _wander(WANDER[1], dice)),
            ),
            size,
        )
        for x, y, size in zip(across, down, sizes, strict=True)
    ]
    return rooms if _good(rooms, moves) else None


def _wander(most: float, dice: Dice) -> float:
    return (2 * dice.unit() - 1) * most


def _levels(
    signs: Sequence[int], sizes: Sequence[float], length: float, dice: Dice
) -> list[float] | None:
    """Return how far along one axis the start and each stop are, before they wander.

    Steps are as long as chance has it, and drawn in until all stops lie on the map.
    """
    spare = [dice.unit() ** 2 * 0.7 * length for _ in signs]
    room = length - max(sizes)
    for _ in range(12):
        at = [0.0]
        for sign, more, one, two in zip(signs, spare, sizes, sizes[1:], strict=False):
            at.append(at[-1] + sign * ((one + two) / 2 + STEP + more))
        breadth = max(at) - min(at)
        if breadth <= room:
            start = max(sizes) / 2 - min(at) + dice.unit() * (room - breadth)
            return [start + one for one in at]
        spare = [0.7 * more for more in spare]
    return None


def _good(rooms: Sequence[Room], moves: Sequence[Move]) -> bool:
    legs = list(pairwise(rooms))
    return (
        all(room.inside() for room in rooms)
        and not any(room.touches(other) for room in rooms for other in SIDES)
        and not any(room.touches(rooms[at]) for room, at in _pairs(rooms))
        and all(_points(one.at, two.at, move) for (one, two), move in zip(legs, moves, strict=True))
        and all(
            not room.crossed(one.at, two.at)
            for room in rooms
            for one, two in legs
            if room is not one and room is not two
        )
    )


def _pairs(rooms: Sequence[Room]) -> Iterator[tuple[Room, int]]:
    for at, room in enumerate(rooms):
        for earlier in range(at):
            yield room, earlier


def _points(here: Point, there: Point, move: Move) -> bool:
    """Tell whether a leg shows `move` plainly."""
    across, down = there.x - here.x, there.y - here.y
    way = _WAYS[move]
    ahead = across * way[0] + down * way[1]
    aside = abs(across * way[1]) + abs(down * way[0])
    return ahead > 0 and aside <= ahead * STEEPEST


def _others(route: Sequence[Room], sizes: Sequence[Size], dice: Dice) -> list[Point] | None:
    """Return a place for each of `sizes`, off the route; the largest look for theirs first."""
    legs = [(one.at, two.at) for one, two in pairwise(route)]
    taken = [*SIDES, *route]
    found: dict[int, Point] = {}
    order = sorted(range(len(sizes)), key=lambda at: -sizes[at].width * sizes[at].height)
    for _ in range(DARTS):
        if not order:
            return [found[at] for at in range(len(sizes))]
        room = Room(_anywhere(sizes[order[0]], dice), sizes[order[0]])
        if any(map(room.touches, taken)):
            continue
        if not any(room.crossed(one, two) for one, two in legs):
            taken.append(room)
            found[order.pop(0)] = room.at
    return None


def _anywhere(size: Size, dice: Dice) -> Point:
    return Point(
        mm(size.width / 2 + dice.unit() * (WIDTH - size.width)),
        mm(size.height / 2 - size.drop + dice.unit() * (HEIGHT - size.height)),
    )
