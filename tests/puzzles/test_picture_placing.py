"""Boxes strewn by chance keep apart, whatever their shapes, and find room even if scarce."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.puzzles import picture_placing
from boxwright.puzzles.picture_field import HEIGHT, MOST_PICTURES, WIDTH
from boxwright.puzzles.picture_placing import EDGE, GAP, Shape, size_for, strewn

SIDES = st.floats(6, 24).map(lambda side: round(side, 2))


def check(shapes: list[Shape], dice: Dice) -> None:
    places = strewn(shapes, dice)
    boxes = list(zip(places, shapes, strict=True))
    for ((x, y), a), ((u, v), b) in combinations(boxes, 2):
        across = abs(x - u) - (a.width + b.width) / 2
        down = abs(y - v) - (a.height + b.height) / 2
        assert max(across, down) >= GAP - 0.02
    for (x, y), shape in boxes:
        assert x - shape.width / 2 >= EDGE - 0.01
        assert x + shape.width / 2 <= WIDTH - EDGE + 0.01
        assert y - shape.height / 2 >= EDGE - 0.01
        assert y + shape.height / 2 <= HEIGHT - EDGE + 0.01


@settings(max_examples=60)
@given(st.lists(st.builds(Shape, SIDES, SIDES), min_size=1, max_size=20), st.integers(0, 999))
def test_boxes_of_any_shape_keep_the_gap_and_the_frame(shapes: list[Shape], seed: int) -> None:
    check(shapes, Dice(seed))


@pytest.mark.parametrize("strip", [0.0, 3.5])
@pytest.mark.parametrize("stretch", [1.0, 1.5, 2.0])
def test_the_most_pictures_of_the_most_awkward_shapes_find_room(
    strip: float, stretch: float
) -> None:
    size = size_for(MOST_PICTURES, strip)
    lying = Shape(size * stretch, size / stretch + strip)
    standing = Shape(size / stretch, size * stretch + strip)
    for seed in range(5):
        for share in (0, 10, 23, MOST_PICTURES):
            check([lying] * share + [standing] * (MOST_PICTURES - share), Dice(seed))


def test_where_chance_finds_no_room_boxes_go_into_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(picture_placing, "_thrown", lambda shapes, dice: None)
    check([Shape(12, 15.5)] * MOST_PICTURES, Dice(1))
    check([Shape(20, 12)] * 7 + [Shape(9, 18)] * 9, Dice(2))


def test_more_than_fits_is_our_own_fault() -> None:
    with pytest.raises(AssertionError):
        strewn([Shape(40, 40)] * 20, Dice(1))


def test_places_are_all_over_the_field() -> None:
    hits = [strewn([Shape(20, 20)], Dice(seed))[0] for seed in range(300)]
    for axis, side in ((0, WIDTH), (1, HEIGHT)):
        middles = sum(hit[axis] < side / 2 for hit in hits)
        assert 110 < middles < 190
        assert min(hit[axis] for hit in hits) < 20
        assert max(hit[axis] for hit in hits) > side - 20


def test_the_fewer_the_larger() -> None:
    sizes = [size_for(count) for count in range(1, MOST_PICTURES + 1)]
    assert sizes == sorted(sizes, reverse=True)
    assert (sizes[0], sizes[-1]) == (20.0, 12.0)
