"""The country between the places: a stream, a track, woods, hills and rocks.

It is there to be walked over; no line of the list speaks of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import pairwise
from math import hypot
from typing import get_args

from boxwright.dice import Dice
from boxwright.puzzles.route_map_layout import Room
from boxwright.puzzles.route_map_sheet import HEIGHT, WIDTH, Feature, Point, Scenery
from boxwright.text import mm

GRID = 6.0  # mm between the points among which a line looks for its way
EVERY = 2  # of these points one is kept; the drawing rounds the line between
BLOCKED = 1e6
AVOIDED = 25.0
FEATURES, DARTS = 14, 360
WIDTHS = (16.0, 13.0, 10.0)
LINE_GAP = 3.0  # mm between a feature and a stream or track

Node = tuple[int, int]
Walls = tuple[float, float, float, float]  # left, right, top, low
COLUMNS, ROWS = round(WIDTH / GRID), round(HEIGHT / GRID)


def stream_and_track(
    rooms: Sequence[Room], dice: Dice
) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Return a stream from the top to the bottom, and a track from left to right.

    Both keep as far from `rooms` as they can without long ways round.
    """
    walls = _walls(rooms)
    costs = {
        (column, row): _cost(_gap(_point((column, row)), walls)) * (0.6 + 0.8 * dice.unit())
        for column in range(COLUMNS + 1)
        for row in range(ROWS + 1)
    }
    # Neither runs along the frame: it comes in on one side, and goes out on the other.
    upright, level = (
        {
            node: cost + AVOIDED * (not _off(node, 1 - axis))
            for node, cost in costs.items()
            if _off(node, axis)
        }
        for axis in (0, 1)
    )
    top = [(column, 0) for column in range(2, COLUMNS - 1)]
    left = [(0, row) for row in range(2, ROWS - 1)]
    stream = _cheapest(dice.sample(top, 6), upright, lambda node: node[1] == ROWS)
    for node in {near for wet in stream for near in _neighbours(wet)} & level.keys():
        level[node] += AVOIDED  # the track crosses the stream, and does not follow it
    track = _cheapest(dice.sample(left, 6), level, lambda node: node[0] == COLUMNS)
    return _line(stream), _line(track)


def _off(node: Node, axis: int) -> bool:
    """Tell whether a point lies off both ends of an axis."""
    return 0 < node[axis] < (COLUMNS, ROWS)[axis]


def _point(node: Node) -> Point:
    return Point(mm(node[0] * WIDTH / COLUMNS), mm(node[1] * HEIGHT / ROWS))


def _walls(rooms: Sequence[Room]) -> list[Walls]:
    return [
        (
            room.middle.x - room.size.width / 2,
            room.middle.x + room.size.width / 2,
            room.middle.y - room.size.height / 2,
            room.middle.y + room.size.height / 2,
        )
        for room in rooms
    ]


def _gap(point: Point, walls: Sequence[Walls]) -> float:
    """Return how far `point` is from the nearest of the rooms with these `walls`; 0 within."""
    x, y = point.x, point.y
    return min(
        hypot(max(0.0, left - x, x - right), max(0.0, top - y, y - low))
        for left, right, top, low in walls
    )


def _cost(gap: float) -> float:
    return BLOCKED if gap == 0 else 1 + 30 / (gap + 1) ** 2


def _cheapest(
    starts: Sequence[Node], costs: dict[Node, float], ended: Callable[[Node], bool]
) -> list[Node]:
    """Return the cheapest way from one of `starts` to where it has ended (Dijkstra 1959)."""
    waiting: list[tuple[float, Node, Node | None]] = [(costs[node], node, None) for node in starts]
    waiting.sort()
    came: dict[Node, Node | None] = {}
    while waiting:
        spent, node, before = heappop(waiting)
        if node in came:
            continue
        came[node] = before
        if ended(node):
            return list(_back(node, came))[::-1]
        for other in _neighbours(node):
            if other in costs and other not in came:
                step = hypot(other[0] - node[0], other[1] - node[1])
                heappush(waiting, (spent + step * costs[other], other, node))
    raise AssertionError("every point of the map can be reached")


def _back(node: Node | None, came: dict[Node, Node | None]) -> Iterator[Node]:
    while node is not None:
        yield node
        node = came[node]


def _neighbours(node: Node) -> Iterator[Node]:
    for across in (-1, 0, 1):
        for down in (-1, 0, 1):
            if across or down:
                yield node[0] + across, node[1] + down


def _line(nodes: Sequence[Node]) -> tuple[Point, ...]:
    kept = [*nodes[:-1:EVERY], nodes[-1]]
    return tuple(_point(node) for node in kept)


def features(
    rooms: Sequence[Room], lines: Sequence[Sequence[Point]], dice: Dice
) -> tuple[Feature, ...]:
    """Return woods, hills and rocks for the room that is left, the wide ones first."""
    walls = _walls(rooms)
    found: list[Feature] = []
    kinds: tuple[Scenery, ...] = get_args(Scenery)
    for width in WIDTHS:
        for _ in range(DARTS // len(WIDTHS)):
            if len(found) == FEATURES:
                break
            at = Point(
                mm(width / 2 + dice.unit() * (WIDTH - width)),
                mm(width / 2 + dice.unit() * (HEIGHT - width)),
            )
            if _is_free(at, width / 2, walls, lines, found):
                found.append(Feature(kinds[len(found) % len(kinds)], at, width))
    return tuple(found)


def _is_free(
    at: Point,
    radius: float,
    walls: Sequence[Walls],
    lines: Sequence[Sequence[Point]],
    found: Sequence[Feature],
) -> bool:
    return (
        _gap(at, walls) >= 0.8 * radius
        and all(_far(at, one, two, radius + LINE_GAP) for line in lines for one, two in _legs(line))
        and all(hypot(at.x - one.at.x, at.y - one.at.y) >= radius + one.width / 2 for one in found)
    )


def _legs(line: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    yield from pairwise(line)


def _far(at: Point, one: Point, two: Point, least: float) -> bool:
    """Tell whether `at` is `least` away from the ends of a short leg, and from its middle."""
    middle = Point((one.x + two.x) / 2, (one.y + two.y) / 2)
    return all(hypot(at.x - end.x, at.y - end.y) >= least for end in (one, middle, two))
