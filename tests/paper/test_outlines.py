"""How far a curve reaches: where it turns, not where its guiding points lie."""

from __future__ import annotations

from itertools import pairwise

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from boxwright.paper.fits import object_boxes, objects_on
from boxwright.paper.opened import opened
from boxwright.paper.outlines import reach, turns

Point = tuple[float, float]
numbers = st.floats(-100, 100)
curves = st.lists(st.tuples(numbers, numbers), min_size=4, max_size=4)


def on(curve: list[Point], share: float) -> Point:
    """Return a point of a curve by de Casteljau's way: halving lines, no powers."""
    points = curve
    while len(points) > 1:
        points = [
            (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            for a, b in pairwise(points)
        ]
    return points[0]


def test_an_arch_reaches_three_quarters_of_the_way_to_its_guides() -> None:
    # Both guides at height 1: the middle is (0 + 3 + 3 + 0) / 8.
    (top,) = (point for point in turns([(0, 0), (0, 1), (1, 1), (1, 0)]) if point[1] > 0.1)
    assert top == pytest.approx((0.5, 0.75))


def test_a_straight_line_turns_nowhere() -> None:
    assert list(turns([(0, 0), (1, 1), (2, 2), (3, 3)])) == []


@given(curves)
def test_no_point_of_a_curve_lies_beyond_its_ends_and_turns(curve: list[Point]) -> None:
    known = [curve[0], curve[3], *turns(curve)]
    for share in (n / 50 for n in range(51)):
        for axis, value in enumerate(on(curve, share)):
            assert min(p[axis] for p in known) - 1e-6 <= value <= max(p[axis] for p in known) + 1e-6


@given(curves)
def test_turns_lie_on_the_curve(curve: list[Point]) -> None:
    # Guides bound a curve, so whatever lies on it lies within their box.
    for point in turns(curve):
        for axis, value in enumerate(point):
            assert min(p[axis] for p in curve) - 1e-6 <= value <= max(p[axis] for p in curve) + 1e-6


# An arch whose guides lie 40 mm over its ends, turned on its side; hence 30 mm wide.
ARCH = b"""#set page(width: 100mm, height: 100mm, margin: 0mm)
#place(dx: 50mm, dy: 50mm, rotate(90deg, origin: top + left, curve(
  fill: black, curve.move((0mm, 0mm)), curve.cubic((0mm, 40mm), (20mm, 40mm), (20mm, 0mm)))))"""


def test_a_turned_curve_on_a_page_is_as_wide_as_it_looks() -> None:
    pdf = typst.compile(ARCH, format="pdf")
    assert isinstance(pdf, bytes)
    with opened(pdf) as document:
        (item,) = objects_on(document[0])
        found = reach(item)
        ((box),) = object_boxes(document[0])
    assert found is not None
    assert (box.width, box.height) == pytest.approx((30, 20), abs=0.05)
    assert box.x == pytest.approx(20, abs=0.05)
