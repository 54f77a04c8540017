"""Counts figures in a picture by arithmetic on bits, so that none stands there by chance."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_setting import near

Rows = tuple[tuple[int, int], ...]  # of a figure: the bits of its strokes and of its rim

BITS = str.maketrans("#.", "10")


@cache
def _rimmed(sort: Sort) -> tuple[Rows, ...]:
    """Return every different picture of `sort`.

    The rim is all of the picture's box that is no stroke, and every square that touches a
    stroke by a side or a corner; so the picture grows by one square each way.
    """
    found = []
    for picture in sorted({one for face in faces_of(sort) for one in face.pictures.values()}):
        strokes = [0, *(int(row[::-1].translate(BITS), 2) << 1 for row in picture), 0]
        box = ((1 << len(picture[0])) - 1) << 1
        boxes = [0, *(box for _ in picture), 0]
        rims = [
            grown & ~stroke for grown, stroke in zip(near(strokes, boxes), strokes, strict=True)
        ]
        found.append(tuple(zip(strokes, rims, strict=True)))
    return tuple(found)


class _Board:
    """All rows as one whole number, so that one look serves them all.

    Each row begins and ends with a cell that is no stroke, as are the first row and the last;
    so no figure is found across an edge.
    """

    def __init__(self, rows: Sequence[int], stride: int) -> None:
        self._stride = stride
        self._cells = sum(row << y * stride for y, row in enumerate(rows))
        self._seen: dict[tuple[int, int], int] = {}

    def places(self, stroke: int, rim: int) -> int:
        """Return the places from which all of `stroke` is dark and all of `rim` light."""
        if (stroke, rim) not in self._seen:
            dark, light = -1, 0
            for x in range(max(stroke, rim).bit_length()):
                if stroke >> x & 1:
                    dark &= self._cells >> x
                elif rim >> x & 1:
                    light |= self._cells >> x
            self._seen[stroke, rim] = dark & ~light
        return self._seen[stroke, rim]

    def count(self, picture: Rows) -> int:
        """Count the places where a picture stands."""
        here = -1
        # Full rows first: most fail there.
        for row in (1, len(picture) // 2, *range(len(picture))):
            here &= self.places(*picture[row]) >> row * self._stride
            if not here:
                break
        return here.bit_count()


def count_figures(rows: Sequence[int], width: int, sort: Sort) -> int:
    """Count all places where a figure of any face stands, dark or light, with its rim.

    Beyond the picture's edge everything counts as rim, so that nothing half seen is missed.
    """
    whole = (1 << width) - 1
    dark = _Board([0, *(row << 1 for row in rows), 0], width + 2)
    light = _Board([0, *((whole & ~row) << 1 for row in rows), 0], width + 2)
    return sum(board.count(picture) for board in (dark, light) for picture in _rimmed(sort))
