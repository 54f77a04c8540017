"""Makes the grid: figures with a quiet rim, stray shaded cells around, and a number in each.

A number stands in many cells, neighbours differ, and no single number that is taken
wrongly leaves a whole code to be read, as far as a few deals can see to that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_setting import Mould, Setting, mould
from boxwright.puzzles.nonogram_strays import count_figures

Height = Literal["small", "middle", "large"]
Cells = tuple[tuple[int, ...], ...]


@frozen_value
class Picture:
    """Which cells are to be shaded: by row, bit x set where the cell in column x is dark.

    The figures are the only ones in it, and stand on `lines` lines; `kept` are their cells
    and those that must stay white around them.
    """

    width: int
    dark: tuple[int, ...]
    kept: tuple[int, ...]
    sort: Sort
    figures: int
    lines: int

    @property
    def shaded(self) -> int:
        """How many cells are dark."""
        return sum(map(int.bit_count, self.dark))


# Columns, rows and height of the figures for each level, by how many figures there are.
# Wide letters may make a grid broader; 21 columns is what two-digit numbers leave room for.
SIZES: Mapping[int, tuple[tuple[int, int, Height], ...]] = {
    1: ((9, 7, "small"), (11, 8, "middle"), (13, 9, "large"), (15, 10, "large")),
    2: ((11, 7, "small"), (14, 8, "middle"), (16, 9, "large"), (19, 10, "large")),
    3: ((15, 7, "small"), (18, 8, "middle"), (20, 9, "large"), (21, 10, "large")),
    4: ((18, 7, "small"), (20, 8, "small"), (21, 9, "middle"), (21, 10, "middle")),
}
# Four figures by a number rule, where no list needs room: two rows of two.
IN_TWO_ROWS: Mapping[Level, tuple[int, int, Height]] = {
    "harder": (14, 15, "middle"),
    "hardest": (16, 16, "middle"),
}
MOST_COLUMNS = 21
ROWS_FOR_LIST = 3  # so many more where there is no list
STRAYS = 0.42  # about the share of dark cells where figures stand
TRIES = 24
DEALS = 4
FEW_CELLS = 3  # look-alikes differ in so few


def size_for(count: int, level: Level, listed: bool) -> tuple[int, int, Height, int]:
    """Return columns, rows, height of the figures, and in how many rows these stand."""
    if count == 4 and not listed and level in IN_TWO_ROWS:
        return (*IN_TWO_ROWS[level], 2)
    columns, rows, height = SIZES[count][LEVELS.index(level)]
    return columns, rows if listed else rows + ROWS_FOR_LIST, height, 1


def picture_for(
    symbols: Sequence[str], sort: Sort, level: Level, listed: bool, dice: Dice
) -> Picture:
    """Return a picture that shows `symbols`; beside a grid that is `listed` a list needs room.

    No other figure stands there by chance. The last tries have no stray cells.
    """
    columns, rows, height, lines = size_for(len(symbols), level, listed)
    faces = [face for face in faces_of(sort) if face.name.startswith(height)]
    for attempt in range(TRIES):
        throw = dice.child("picture", attempt)
        setting = Setting(throw.pick(faces), lines, 2, "dark")
        if setting.span(symbols)[0] + 2 > MOST_COLUMNS:
            setting = Setting(setting.face, lines, 1, "dark")
        design = mould(symbols, setting, (columns, rows), throw)
        dark = _with_strays(design, STRAYS if attempt < TRIES // 2 else 0.0, throw)
        if count_figures(dark, design.width, sort) == len(symbols):
            return Picture(design.width, tuple(dark), design.kept, sort, len(symbols), lines)
    raise AssertionError(f"no picture for {symbols} at {level} in {TRIES} tries")


def _with_strays(design: Mould, share: float, dice: Dice) -> list[int]:
    strays = [
        sum(1 << x for x in range(design.width) if design.free(x, y) and dice.chance(share))
        for y in range(design.height)
    ]
    return [dark | stray for dark, stray in zip(design.dark, strays, strict=True)]


def dealt(picture: Picture, fits: Sequence[int], others: Sequence[int], dice: Dice) -> Cells:
    """Return the grid's numbers: `fits` in dark cells, `others` in light ones.

    Of a few deals, the one is taken in which the fewest numbers can be taken wrongly
    without spoiling a figure.
    """
    deals: list[tuple[int, Cells]] = []
    for deal in range(DEALS):
        cells = _deal(picture, fits, others, dice.child("deal", deal))
        deals.append((_unseen_slips(cells, picture), cells))
        if deals[-1][0] == 0:
            break
    return min(deals, key=lambda it: it[0])[1]


def _deal(picture: Picture, fits: Sequence[int], others: Sequence[int], dice: Dice) -> Cells:
    """Deal both sorts out again and again, so that each number stands as often as another."""
    stacks = {True: _Stack(fits, dice.child("fits")), False: _Stack(others, dice.child("others"))}
    rows: list[list[int]] = []
    for y, dark in enumerate(picture.dark):
        above = rows[y - 1] if y else []
        row: list[int] = []
        for x in range(picture.width):
            sides = {*row[-1:], *above[x : x + 1]}
            corners = {*above[max(0, x - 1) : x + 2]}
            row.append(stacks[bool(dark >> x & 1)].take(sides, corners))
        rows.append(row)
    return tuple(map(tuple, rows))


class _Stack:
    """Numbers of one sort, shuffled; dealt off the top and filled up when few are left."""

    def __init__(self, pool: Sequence[int], dice: Dice) -> None:
        assert len(set(pool)) > len(("left", "above")), "neighbours could not differ"
        self.pool, self.dice, self.left = pool, dice, dice.shuffled(pool)

    def take(self, sides: set[int], corners: set[int]) -> int:
        """Return the next that is none of `sides`, and if it can be none of `corners`."""
        if len(self.left) <= len(self.pool) // 2:
            self._fill()
        for beside in (sides | corners, sides):
            at = next((at for at, it in enumerate(self.left) if it not in beside), None)
            if at is not None:
                return self.left.pop(at)
        self._fill()
        return self.take(sides, corners)

    def _fill(self) -> None:
        self.left += self.dice.shuffled(self.pool)


def _unseen_slips(cells: Cells, picture: Picture) -> int:
    """Count numbers that, taken wrongly, still leave as many figures as are looked for.

    Numbers in more than a few cells of the figures would spoil them anyway.
    """
    unseen = 0
    for number in {number for row in cells for number in row}:
        slips = [sum(1 << x for x, it in enumerate(row) if it == number) for row in cells]
        near = sum((a & b).bit_count() for a, b in zip(slips, picture.kept, strict=True))
        if 0 < near <= FEW_CELLS:
            turned = [a ^ b for a, b in zip(picture.dark, slips, strict=True)]
            unseen += count_figures(turned, picture.width, picture.sort) >= picture.figures
    return unseen
