"""Source: OEIS A242876, uniquely solvable n x n nonograms: 1, 2, 14, 384, 52362, 25309575.

Published counts (n = 0 to 5) of pictures that their run lengths determine; and CP-SAT as a
second solver of sheets that are made here.
"""

from __future__ import annotations

from collections import Counter
from itertools import islice

import pytest

from boxwright.dice import Dice
from boxwright.game.model import LEVELS
from boxwright.puzzles import nonogram
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.nonogram_lines import columns_of, runs_of
from boxwright.puzzles.nonogram_solver import pictures
from tests.puzzles.second_solver import Model

A242876 = (1, 2, 14, 384, 52362, 25309575)

Clues = tuple[tuple[tuple[int, ...], ...], tuple[tuple[int, ...], ...]]


def clues_of(number: int, size: int) -> Clues:
    """Return the run lengths of the picture whose squares are the bits of `number`."""
    rows = [number >> size * y & (1 << size) - 1 for y in range(size)]
    return tuple(map(runs_of, rows)), tuple(map(runs_of, columns_of(rows, size)))


def unique_for_our_solver(size: int) -> int:
    """Count the run lengths of all pictures for which our solver finds just one picture."""
    clues = {clues_of(number, size) for number in range(1 << size * size)}
    return sum(len(list(islice(pictures(*both), 2))) == 1 for both in clues)


@pytest.mark.parametrize("size", [1, 2, 3])
def test_our_solver_finds_as_many_unique_pictures_as_published(size: int) -> None:
    assert unique_for_our_solver(size) == A242876[size]


def test_the_picture_without_squares_is_unique() -> None:
    assert len(list(pictures((), ()))) == A242876[0]


@pytest.mark.long
def test_our_solver_finds_as_many_unique_pictures_of_four_squares_a_side() -> None:
    assert unique_for_our_solver(4) == A242876[4]


def test_run_lengths_tell_as_many_pictures_of_four_squares_a_side_apart() -> None:
    counts = Counter(clues_of(number, 4) for number in range(1 << 16))
    assert sum(count == 1 for count in counts.values()) == A242876[4]


@pytest.mark.long
def test_run_lengths_tell_as_many_pictures_of_five_squares_a_side_apart() -> None:
    import numpy as np

    size = 5
    ids = {runs: n for n, runs in enumerate(sorted({runs_of(line) for line in range(1 << size)}))}
    assert len(ids) == 13  # Fibonacci: as many as there are run lengths of five squares
    of_line = np.array([ids[runs_of(line)] for line in range(1 << size)], dtype=np.int64)
    grids = np.arange(1 << size * size, dtype=np.int64)
    keys = np.zeros_like(grids)
    for y in range(size):
        keys = keys * len(ids) + of_line[grids >> size * y & 31]
    for x in range(size):
        column = np.zeros_like(grids)
        for y in range(size):
            column |= (grids >> size * y + x & 1) << y
        keys = keys * len(ids) + of_line[column]
    keys.sort()
    new = np.concatenate(([True], keys[1:] != keys[:-1], [True]))
    assert int(np.count_nonzero(new[1:] & new[:-1])) == A242876[5]


@pytest.mark.parametrize(
    "count", [pytest.param(24, id="two dozen"), pytest.param(200, marks=pytest.mark.long)]
)
def test_a_second_solver_finds_our_picture_and_no_other(count: int) -> None:
    dice = Dice("second solver")
    for n in range(count):
        level = LEVELS[n % 4]
        letters = n % 3 == 0
        signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if letters else "0123456789"
        symbols = tuple(dice.pick(signs) for _ in range(dice.between(1, 3)))
        answer = Answer("letters" if letters else "digits", symbols)
        made = nonogram.make(answer, nonogram.Options(), Given(level=level), Dice(n))
        squares = made.sheet.sheet
        (ours,) = pictures(squares.rows, squares.columns)
        model = Model(squares.rows, squares.columns)
        assert model.next() == ours.grid
        assert model.next() is None


def test_both_solvers_find_the_same_pictures_where_there_are_several() -> None:
    ones = ((1,),) * 4
    model = Model(ones, ones)
    theirs = set()
    while (found := model.next()) is not None:
        theirs.add(found)
    assert {picture.grid for picture in pictures(ones, ones)} == theirs
    assert len(theirs) == 24  # as many as there are ways to set four rooks in peace: 4!
