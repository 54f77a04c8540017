"""Figures that stand in a picture are counted as by looking at every square of every place."""

from __future__ import annotations

from itertools import product
from typing import get_args

import pytest

from boxwright.dice import Dice
from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_strays import count_figures

Square = tuple[int, int]
WIDTH, HEIGHT = 13, 11


def figures(sort: Sort) -> list[tuple[str, ...]]:
    return sorted({picture for face in faces_of(sort) for picture in face.pictures.values()})


def strokes_of(picture: tuple[str, ...], left: int, top: int) -> set[Square]:
    return {
        (left + x, top + y)
        for y, row in enumerate(picture)
        for x, sign in enumerate(row)
        if sign == "#"
    }


def rim_of(picture: tuple[str, ...], left: int, top: int) -> set[Square]:
    """All of the box that is no stroke, and all that touches a stroke, beyond the edge too."""
    strokes = strokes_of(picture, left, top)
    box = set(product(range(left, left + len(picture[0])), range(top, top + len(picture))))
    touch = {(x + a, y + b) for x, y in strokes for a in (-1, 0, 1) for b in (-1, 0, 1)}
    return (box | touch) - strokes


def counted_by_squares(rows: list[int], sort: Sort) -> int:
    """Every figure at every place, dark and then light, square by square."""
    board = set(product(range(WIDTH), range(HEIGHT)))
    dark = {(x, y) for x, y in board if rows[y] >> x & 1}
    return sum(
        strokes_of(picture, x, y) <= tone and not rim_of(picture, x, y) & tone
        for tone in (dark, board - dark)
        for picture in figures(sort)
        for x in range(WIDTH - len(picture[0]) + 1)
        for y in range(HEIGHT - len(picture) + 1)
    )


def strewn(sort: Sort, dice: Dice) -> list[int]:
    """Rows of chance squares with a figure laid over them, now and then a square wrong."""
    picture = dice.pick(figures(sort))
    left = dice.below(WIDTH - len(picture[0]) + 1)
    top = dice.below(HEIGHT - len(picture) + 1)
    strokes, rim = strokes_of(picture, left, top), rim_of(picture, left, top)
    tone = dice.chance(0.5)
    rows = [0] * HEIGHT
    for x, y in product(range(WIDTH), range(HEIGHT)):
        chance = dice.chance(0.5)
        dark = tone if (x, y) in strokes else not tone if (x, y) in rim else chance
        rows[y] |= (dark != dice.chance(0.01)) << x
    return rows


@pytest.mark.parametrize("sort", get_args(Sort))
def test_figures_are_counted_as_by_looking_at_every_square(sort: Sort) -> None:
    counts = []
    for n in range(40):
        rows = strewn(sort, Dice(f"{sort} {n}"))
        counts.append(count_figures(rows, WIDTH, sort))
        assert counts[-1] == counted_by_squares(rows, sort)
    assert {0, 1} <= set(counts)


def test_a_figure_is_seen_in_every_corner_and_never_across_an_edge() -> None:
    picture = figures("digits")[0]
    wide, high = len(picture[0]), len(picture)
    for left, top in product((0, WIDTH - wide), (0, HEIGHT - high)):
        rows = [0] * HEIGHT
        for x, y in strokes_of(picture, left, top):
            rows[y] |= 1 << x
        assert count_figures(rows, WIDTH, "digits") == counted_by_squares(rows, "digits") == 1
        split = [((row << WIDTH | row) >> wide // 2) & (1 << WIDTH) - 1 for row in rows]
        assert count_figures(split, WIDTH, "digits") == counted_by_squares(split, "digits")


def test_a_board_too_small_for_any_figure_has_none() -> None:
    assert count_figures([1], 1, "digits") == 0
    assert count_figures([0] * 30, 2, "letters") == 0
