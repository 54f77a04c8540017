"""Source: Shapely 2 (GEOS), an independent geometry library: legs, angles, what lies in the way.

Of every map that is made: each leg within 15 degrees of one axis, by Shapely's bearings; no
leg over a place that it does not lead to, nor over its label; no two places on one another.
"""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import Any

import pytest
from shapely import LineString, Point, box
from shapely.affinity import rotate

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles import route_map
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.route_map_sheet import Place, RouteMap, Stop

CODES = (
    "up right up right up right up right",
    "left down left down left down left down",
    "up right down left up right down left",
    "right up left down right up left down",
    "down right",
    "left up right up left",
)
AXES = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}
WIDEST_ANGLE = 15.0


def a_map(code: str, level: Level, seed: int) -> RouteMap:
    answer = Answer("moves", tuple(code.split()))
    made = route_map.make(answer, route_map.Options(), Given(level=level), Dice(seed))
    assert made.sheet.sheet is not None
    return made.sheet.sheet  # type: ignore[no-any-return]


def is_meant(place: Place, stop: Stop) -> bool:
    """The list read once more, apart from the kind's own solver."""
    looks = {place.sort, *place.things, *place.label}
    wanted = {stop.name, stop.sort, *stop.has} - {"", None}
    return wanted <= looks and not looks & set(stop.lacks)


def way(sheet: RouteMap) -> list[Place]:
    found = []
    for stop in sheet.stops:
        (one,) = [place for place in sheet.places if is_meant(place, stop)]
        found.append(one)
    return found


def ink(place: Place) -> Any:
    """What a place covers at the least: its drawing, its things, a line of its label."""
    x, y = place.at.x, place.at.y
    left = 12.5 if place.things else 5.8
    right = 12.5 if len(place.things) > 1 else 5.8
    low = y + 6 + (7 if place.label else 0)
    return box(x - left, y - 6, x + right, low)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("code", CODES)
def test_each_leg_points_plainly_and_meets_no_other_place(code: str, level: Level) -> None:
    for seed in range(3):
        sheet = a_map(code, level, seed)
        stops = way(sheet)
        points = [sheet.start, *(place.at for place in stops)]
        moves = code.split()
        assert len(set(stops)) == len(moves)
        assert len(sheet.places) - len(stops) >= 8
        for number, (one, two) in enumerate(pairwise(points)):
            leg = LineString([(one.x, one.y), (two.x, two.y)])
            along = AXES[moves[number]]
            cone = [
                rotate(
                    LineString([(one.x, one.y), (one.x + 400 * along[0], one.y + 400 * along[1])]),
                    turn,
                    origin=(one.x, one.y),
                )
                for turn in (-WIDEST_ANGLE, WIDEST_ANGLE)
            ]
            wedge = LineString([*cone[0].coords, *reversed(cone[1].coords)]).convex_hull
            assert wedge.buffer(1e-6).contains(Point(two.x, two.y))
            ends = {number - 1, number}
            for place in sheet.places:
                if place not in [stops[at] for at in ends if at >= 0]:
                    assert not leg.intersects(ink(place))


@pytest.mark.parametrize("level", LEVELS)
def test_no_two_places_lie_on_one_another(level: Level) -> None:
    for seed, code in enumerate(CODES):
        sheet = a_map(code, level, seed)
        frame = box(0, 0, sheet.width, sheet.height)
        for place in sheet.places:
            assert frame.contains(ink(place))
        for one, two in combinations(sheet.places, 2):
            assert not ink(one).intersects(ink(two))
            assert not ink(one).contains(Point(sheet.start.x, sheet.start.y))
