"""The drawn pictures: each in one piece, told apart in any turn, and none a mark in the foot."""

from __future__ import annotations

from functools import cache
from itertools import combinations, permutations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import ndimage

from boxwright.choose.marks import SIGNS, Mark
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.puzzles.count_sheet import Sheet
from boxwright.puzzles.drawn import DRAWN, FAMILIES
from boxwright.puzzles.picture_field import Field, Placed, Sort
from boxwright.puzzles.shelf import kind
from tests.puzzles.printed_field import PIXELS, blots, field_in, page_of

SIZE = 20.0
SIDE = round(SIZE * PIXELS)
STEP = 6  # degrees
# Shares of the ink of two pictures laid on each other as well as they can be.
LEAST_APART = 0.08
Shape = NDArray[np.bool_]


def drawn(turn: int = 0) -> dict[str, Shape]:
    """Return each picture as it is printed at 20 mm, turned."""
    names = list(DRAWN)
    placed = tuple(
        Placed(name, 14.0 + 28 * (at % 6), 22.0 + 45 * (at // 6), turn)
        for at, name in enumerate(names)
    )
    sorts = tuple(Sort(name, SIZE, SIZE) for name in names)
    field = Field(170.0, 136.0, (names[0],), sorts, placed)
    page = page_for(kind("count-sheet"), Sheet(field), "sheet", title="Pictures", lang="en")
    (grey,) = page_of([page], Look())
    found = field_in(grey)
    shapes = {}
    for it in placed:
        y, x = (round(at - SIDE / 2) for at in found.place(field, it.x, it.y))
        shapes[it.picture] = found.grey[y : y + SIDE, x : x + SIDE] < 128
    return shapes


@cache
def upright() -> dict[str, Shape]:
    return drawn()


def turns(name: str) -> range:
    tilt = DRAWN[name].tilt
    return range(0, 360, STEP) if tilt == 180 else range(-2 * tilt, 2 * tilt + 1, 4)


def turned(shape: Shape, turn: int) -> Shape:
    grey = ndimage.rotate(shape.astype(float), turn, reshape=False, order=1)
    result: Shape = grey > 0.5
    return result


@cache
def in_turn(name: str, turn: int) -> Shape:
    return turned(upright()[name], turn)


def apart(one: Shape, other: Shape) -> float:
    return float((one ^ other).sum() / (one | other).sum())


def test_there_are_a_dozen_and_more_in_three_families() -> None:
    assert len(DRAWN) >= 12
    for family in FAMILIES:
        assert sum(one.family == family for one in DRAWN.values()) >= 4


def test_every_name_is_drawn_and_every_drawing_has_a_name() -> None:
    from boxwright.paper.render import HERE

    text = (HERE / "pictures.typ").read_text(encoding="utf-8")
    body = text.partition("#let drawings = (")[2].partition("\n)\n")[0]
    names = [line.split(":")[0].strip() for line in body.splitlines() if ":" in line]
    assert names == list(DRAWN)


@pytest.mark.parametrize("name", DRAWN)
def test_a_picture_is_in_one_piece_and_dark_enough(name: str) -> None:
    shape = upright()[name]
    _, count = ndimage.label(shape, np.ones((3, 3)))
    assert count == 1
    assert 0.14 < shape.mean() < 0.6


@pytest.mark.parametrize("name", DRAWN)
def test_a_picture_lies_within_the_circle_in_its_box_so_that_it_can_be_turned(name: str) -> None:
    down, across = np.nonzero(upright()[name])
    middle = (SIDE - 1) / 2
    assert np.hypot(down - middle, across - middle).max() <= SIDE / 2 + 1


@pytest.mark.parametrize("family", FAMILIES)
def test_no_picture_can_be_turned_into_another_of_its_family(family: str) -> None:
    """What tells two apart, laid on each other at best, holds a square of 0.8 mm at 12 mm."""
    square = np.ones((round(0.8 * PIXELS * SIZE / 12),) * 2)
    names = [name for name, one in DRAWN.items() if one.family == family]
    for one, other in combinations(names, 2):
        best = min(
            (in_turn(other, turn) for turn in turns(other)),
            key=lambda shape: apart(upright()[one], shape),
        )
        assert apart(upright()[one], best) > LEAST_APART, (one, other)
        assert ndimage.binary_erosion(upright()[one] ^ best, square).any(), (one, other)


def test_pictures_of_different_families_are_far_apart() -> None:
    for one, other in combinations(DRAWN, 2):
        if DRAWN[one].family != DRAWN[other].family:
            assert apart(upright()[one], upright()[other]) > 0.3


def test_no_picture_is_a_mark_of_the_foot() -> None:
    assert not set(DRAWN) & set(SIGNS)
    marks = printed_marks()
    for name, shape in upright().items():
        for sign, mark in marks.items():
            assert apart(filled_up(shape), mark) > 0.2, (name, sign)


def filled_up(shape: Shape) -> Shape:
    """Return a shape stretched to the size to which marks are stretched here."""
    down, across = np.nonzero(shape)
    cut = shape[down.min() : down.max() + 1, across.min() : across.max() + 1].astype(float)
    zoom = [48 / side for side in cut.shape]
    result: Shape = ndimage.zoom(cut, zoom, order=1) > 0.5
    return result


@cache
def printed_marks() -> dict[str, Shape]:
    field = Field(170.0, 136.0, ("flower-six",), (Sort("flower-six", SIZE, SIZE),), ())
    look = Look()
    found = {}
    for start in range(0, len(SIGNS), 3):
        three = tuple((*SIGNS, *SIGNS)[start : start + 3])
        mark = Mark(three, three)  # type: ignore[arg-type]
        page = page_for(
            kind("count-sheet"), Sheet(field), "sheet", title="Marks", lang="en", mark=mark
        )
        (grey,) = page_of([page], look)
        for name, box in zip(three, look.mark_places, strict=False):
            y, x, side = (round(value * PIXELS) for value in (box.y, box.x, box.width))
            found[name] = filled_up(grey[y - 2 : y + side + 2, x - 2 : x + side + 2] < 128)
    return found


def test_the_printed_turn_is_clockwise_and_no_picture_leaves_its_box() -> None:
    quarter = drawn(90)
    for name in ("beetle-chevron", "balloon-box"):
        there = apart(quarter[name], np.rot90(upright()[name], -1))
        back = apart(quarter[name], np.rot90(upright()[name], 1))
        assert there < 0.15 < 0.3 < back
    assert blots(np.where(quarter["beetle-chevron"], 0, 255).astype(np.uint8))[1] == 1


def test_looking_for_differences_can_fail() -> None:
    shape = upright()["flower-five"]
    assert min(apart(shape, turned(shape, turn)) for turn in (70, 72, 74)) < LEAST_APART
    assert all(apart(a, b) > 0 for a, b in permutations(list(upright().values())[:3], 2))
