"""Strews boxes over a field by chance, none nearer to another than the gap.

Darts that never miss: the places where a box of some shape may still stand are kept as
bits, a row of the field to a whole number, and a dart hits one of those bits. Each box
that is put down clears a rectangle of bits, a shift and a mask a row. Where the field is
too full for chance, boxes go into rows instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, sqrt
from typing import NamedTuple

from boxwright.dice import Dice
from boxwright.puzzles.picture_field import HEIGHT, LEAST_SIZE, MOST_SIZE, WIDTH
from boxwright.text import mm

GAP = 2.5  # a little more than what is promised, for rounding
EDGE = 1.5  # from the frame
TRIES = 12
FULL = 0.42  # share of the field that boxes with their gaps may fill at random, with ease

Point = tuple[float, float]


class Shape(NamedTuple):
    """How much room a thing takes, in whole steps of a millimetre."""

    width: float
    height: float


class _Ground:
    """Where boxes of one shape may have their top left corner; a bit is a millimetre."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.columns = int(WIDTH - 2 * EDGE - shape.width) + 1
        rows = int(HEIGHT - 2 * EDGE - shape.height) + 1
        self.rows = [(1 << self.columns) - 1] * rows

    def hit(self, dice: Dice) -> tuple[int, int] | None:
        """Return a free corner, each as likely; None where no place is left."""
        counts = [row.bit_count() for row in self.rows]
        free = sum(counts)
        if not free:
            return None
        left = dice.below(free)
        for y, count in enumerate(counts):
            if left < count:
                return _nth_bit(self.rows[y], left), y
            left -= count
        raise AssertionError("a free place was counted and not found")

    def clear(self, x: int, y: int, other: Shape) -> None:
        """Take away the corners at which this shape would come too near to `other` at x, y."""
        first = max(0, x - ceil(self.shape.width + GAP) + 1)
        last = min(self.columns, x + ceil(other.width + GAP))
        if first >= last:
            return
        keep = ~(((1 << (last - first)) - 1) << first)
        top = max(0, y - ceil(self.shape.height + GAP) + 1)
        for row in range(top, min(len(self.rows), y + ceil(other.height + GAP))):
            self.rows[row] &= keep


def _nth_bit(bits: int, nth: int) -> int:
    """Return the place of the set bit with `nth` set bits below it."""
    place = 0
    width = bits.bit_length()
    while width > 1:
        half = width // 2
        low = bits & ((1 << half) - 1)
        count = low.bit_count()
        if nth < count:
            bits, width = low, half
        else:
            bits, nth, place, width = bits >> half, nth - count, place + half, width - half
    return place


def strewn(shapes: Sequence[Shape], dice: Dice) -> list[Point]:
    """Return the middle of each box, in millimetres from the field's top left.

    Any two boxes are at least `GAP` apart, across or down, and `EDGE` from the frame.
    """
    for _ in range(TRIES):
        corners = _thrown(shapes, dice)
        if corners is not None:
            break
    else:
        corners = _in_rows(shapes, dice)
    return [
        (mm(x + EDGE + shape.width / 2), mm(y + EDGE + shape.height / 2))
        for (x, y), shape in zip(corners, shapes, strict=True)
    ]


def _thrown(shapes: Sequence[Shape], dice: Dice) -> list[Point] | None:
    """Return corners found by chance, the largest boxes first; None where one found no place."""
    grounds = {shape: _Ground(shape) for shape in dict.fromkeys(shapes)}
    found: dict[int, Point] = {}
    order = sorted(range(len(shapes)), key=lambda at: -shapes[at].width * shapes[at].height)
    for at in order:
        hit = grounds[shapes[at]].hit(dice)
        if hit is None:
            return None
        found[at] = hit
        for ground in grounds.values():
            ground.clear(*hit, shapes[at])
    return [found[at] for at in range(len(shapes))]


def _in_rows(shapes: Sequence[Shape], dice: Dice) -> list[Point]:
    """Return corners in rows of boxes of like height, moved apart as far as there is room."""
    wide, high = WIDTH - 2 * EDGE, HEIGHT - 2 * EDGE
    rows: list[list[int]] = []
    for at in sorted(dice.shuffled(range(len(shapes))), key=lambda at: -shapes[at].height):
        if not rows or _length(rows[-1], shapes) + GAP + shapes[at].width > wide:
            rows.append([])
        rows[-1].append(at)
    dice.shuffle(rows)
    spare = high + GAP - sum(_height(row, shapes) + GAP for row in rows)
    if spare < 0:
        raise AssertionError(f"{len(shapes)} boxes do not fit in rows")
    found: dict[int, Point] = {}
    top = 0.0
    for row in rows:
        top += spare / (len(rows) + 1)
        slack = wide - _length(row, shapes)
        left = 0.0
        for at in dice.shuffled(row):
            left += slack / (len(row) + 1)
            found[at] = left, top
            left += shapes[at].width + GAP
        top += _height(row, shapes) + GAP
    return [found[at] for at in range(len(shapes))]


def _length(row: Sequence[int], shapes: Sequence[Shape]) -> float:
    return sum(shapes[at].width + GAP for at in row) - GAP


def _height(row: Sequence[int], shapes: Sequence[Shape]) -> float:
    return max(shapes[at].height for at in row)


def size_for(count: int, more_height: float = 0.0) -> float:
    """Return how wide and high pictures may be, in millimetres, so that `count` can be strewn.

    `more_height` is kept free under each.
    """
    room = FULL * (WIDTH - 2 * EDGE + GAP) * (HEIGHT - 2 * EDGE + GAP) / count
    # (size + GAP) * (size + GAP + more_height) = room
    side = (-more_height + sqrt(more_height**2 + 4 * room)) / 2
    return mm(min(MOST_SIZE, max(LEAST_SIZE, int(2 * (side - GAP)) / 2)))
