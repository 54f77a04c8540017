"""Fits a picture to the page and mends its ground until line logic alone solves it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boxwright.dice import Dice
from boxwright.puzzles.nonogram_lines import Runs, Settled, columns_of, runs_of, settle_picture
from boxwright.puzzles.nonogram_setting import Mould

MENDS = 16

# What a page of 18 pt holds beside title and instructions, on the narrower and on the
# shorter paper, with numbers of 15.3 pt: measured from the template, in millimetres.
PAGE_WIDTH, PAGE_HEIGHT = 174.0, 148.0
SQUARE, SQUARE_UNDER_TWO_DIGITS = 6.0, 6.3
DIGIT, DIGIT_ONE, NUMBER_GAP, NUMBER_RISE = 3.3, 2.2, 2.2, 5.4
DEEPEST = 7


@dataclass(slots=True)
class Picture:
    """A picture in the making: rows and columns as bits, and their runs, kept in step."""

    rows: list[int]
    columns: list[int]
    across: list[Runs]
    down: list[Runs]

    @classmethod
    def of(cls, rows: Sequence[int], width: int) -> Picture:
        """Return the picture with these rows."""
        columns = columns_of(rows, width)
        return cls(list(rows), columns, [runs_of(r) for r in rows], [runs_of(c) for c in columns])

    def turn(self, x: int, y: int) -> None:
        """Make a dark square light, or a light one dark."""
        self.rows[y] ^= 1 << x
        self.columns[x] ^= 1 << y
        self.across[y] = runs_of(self.rows[y])
        self.down[x] = runs_of(self.columns[x])


def _width_of(runs: Runs) -> float:
    """Return how wide the numbers of a row are on a page of 18 pt, in millimetres."""
    digits = sum(DIGIT_ONE if digit == "1" else DIGIT for run in runs for digit in str(run))
    return digits + NUMBER_GAP * len(runs) + 1.0


def fits(across: Sequence[Runs], down: Sequence[Runs]) -> bool:
    """Tell whether the sheet fits the page in large print."""
    square = SQUARE_UNDER_TWO_DIGITS if max(map(max, down)) > 9 else SQUARE
    deepest = max(map(len, down))
    return (
        deepest <= DEEPEST
        and len(down) * square + max(map(_width_of, across)) <= PAGE_WIDTH
        and len(across) * square + deepest * NUMBER_RISE <= PAGE_HEIGHT
    )


def _open_squares(picture: Settled) -> int:
    return sum(row.bit_count() for row in picture.open)


def _worth_turning(mould: Mould, found: Settled) -> list[tuple[int, int]]:
    """Return the ground's squares that are open, or else those in line with open ones."""
    places = [
        (x, y)
        for y, row in enumerate(found.open)
        if row
        for x in range(mould.width)
        if mould.free(x, y)
    ]
    open_ones = [(x, y) for x, y in places if found.open[y] >> x & 1]
    return open_ones or places


def mend(picture: Picture, mould: Mould, dice: Dice) -> Settled | None:
    """Turn squares of the ground until line logic solves `picture`; None if it does not."""
    found = settle_picture(picture.across, picture.down)
    left = _open_squares(found)
    for _ in range(MENDS):
        if not left:
            return found
        places = _worth_turning(mould, found)
        if not places:
            return None
        x, y = dice.pick(places)
        picture.turn(x, y)
        after = settle_picture(picture.across, picture.down)
        if _open_squares(after) <= left:
            found, left = after, _open_squares(after)
        else:
            picture.turn(x, y)
    return found if not left else None


def _trim_column(picture: Picture, mould: Mould, x: int) -> bool:
    """Break a run of ten or more in column `x` at a square of the ground, near its middle."""
    column, start = picture.columns[x], 0
    for run in picture.down[x]:
        start += ((column >> start) & -(column >> start)).bit_length() - 1
        middle = start + run // 2
        places = [y for y in range(start, start + run) if mould.free(x, y)]
        if run > 9 and places:
            picture.turn(x, min(places, key=lambda y: abs(y - middle)))
            return True
        start += run
    return False


def trim(picture: Picture, mould: Mould) -> None:
    """Where the page is too narrow for two-digit numbers over columns, break those up."""
    if not fits(picture.across, picture.down):
        for x, runs in enumerate(picture.down):
            if max(runs) > 9:
                _trim_column(picture, mould, x)
