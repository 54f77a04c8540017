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
Span = tuple[float, float]
COLUMNS, ROWS = round(WIDTH / GRID), round(HEIGHT / GRID)
STEPS = tuple(
    (across, down, hypot(across, down))
    for across in (-1, 0, 1)
    for down in (-1, 0, 1)
    if across or down
)


def stream_and_track(
    rooms: Sequence[Room], dice: Dice
) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Return a stream from the top to the bottom, and a track from left to right.

    Both keep as far from `rooms` as they can without long ways round.
    """
    walls = Walls(rooms)
    across = [walls.across(_point((column, 0)).x) for column in range(COLUMNS + 1)]
    down = [walls.down(_point((0, row)).y) for row in range(ROWS + 1)]
    costs = {
        (column, row): _cost(_nearest(across[column], down[row])) * (0.6 + 0.8 * dice.unit())
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


class Walls:
    """What rooms take up, axis by axis."""

    def __init__(self, rooms: Sequence[Room]) -> None:
        self._across = [_span(room.middle.x, room.size.width) for room in rooms]
        self._down = [_span(room.middle.y, room.size.height) for room in rooms]

    def across(self, x: float) -> list[float]:
        """Return how far `x` is from each room's sides; 0 between them."""
        return [max(0.0, left - x, x - right) for left, right in self._across]

    def down(self, y: float) -> list[float]:
        """Return how far `y` is from each room's top and bottom; 0 between them."""
        return [max(0.0, top - y, y - low) for top, low in self._down]

    def gap(self, point: Point) -> float:
        """Return how far `point` is from the nearest room; 0 within."""
        return _nearest(self.across(point.x), self.down(point.y))


def _span(middle: float, breadth: float) -> Span:
    return middle - breadth / 2, middle + breadth / 2


def _nearest(across: Sequence[float], down: Sequence[float]) -> float:
    return min(map(hypot, across, down))


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
        for across, down, step in STEPS:
            other = node[0] + across, node[1] + down
            if other in costs and other not in came:
                heappush(waiting, (spent + step * costs[other], other, node))
    raise AssertionError("every point of the map can be reached")


def _back(node: Node | None, came: dict[Node, Node | None]) -> Iterator[Node]:
    while node is not None:
        yield node
        node = came[node]


def _neighbours(node: Node) -> Iterator[Node]:
    return ((node[0] + across, node[1] + down) for across, down, _ in STEPS)


def _line(nodes: Sequence[Node]) -> tuple[Point, ...]:
    kept = [*nodes[:-1:EVERY], nodes[-1]]
    return tuple(_point(node) for node in kept)


def features(
    rooms: Sequence[Room], lines: Sequence[Sequence[Point]], dice: Dice
) -> tuple[Feature, ...]:
    """Return woods, hills and rocks for the room that is left, the wide ones first."""
    walls, marks = Walls(rooms), [mark for line in lines for mark in _marks(line)]
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
            if _is_free(at, width / 2, walls, marks, found):
                found.append(Feature(kinds[len(found) % len(kinds)], at, width))
    return tuple(found)


def _is_free(
    at: Point,
    radius: float,
    walls: Walls,
    marks: Sequence[Point],
    found: Sequence[Feature],
) -> bool:
    return (
        walls.gap(at) >= 0.8 * radius
        and all(hypot(at.x - one.x, at.y - one.y) >= radius + LINE_GAP for one in marks)
        and all(hypot(at.x - one.at.x, at.y - one.at.y) >= radius + one.width / 2 for one in found)
    )


def _marks(line: Sequence[Point]) -> Iterator[Point]:
    """Yield ends and middles of a line's short legs: what is far from all is far from the line."""
    yield from line
    for one, two in pairwise(line):
        yield Point((one.x + two.x) / 2, (one.y + two.y) / 2)
