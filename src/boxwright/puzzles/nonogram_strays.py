"""Counts figures in a picture by arithmetic on bits, so that none stands there by chance."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache

from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_setting import near

BITS = str.maketrans("#.", "10")


@cache
def _rimmed(sort: Sort) -> tuple[tuple[int, tuple[tuple[int, int], ...]], ...]:
    """Return every different picture of `sort`: its width, and (stroke, rim) bits by row.

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
        found.append((len(picture[0]) + 2, tuple(zip(strokes, rims, strict=True))))
    return tuple(found)


@lru_cache(maxsize=1 << 14)
def _row_matches(row: int, stroke: int, rim: int) -> int:
    """Return the places in `row` from which all of `stroke` is dark and all of `rim` light."""
    places, other = -1, ~row
    while stroke | rim:
        if stroke & 1:
            places &= row
        elif rim & 1:
            places &= other
        row, other, stroke, rim = row >> 1, other >> 1, stroke >> 1, rim >> 1
    return places


def count_figures(rows: Sequence[int], width: int, sort: Sort) -> int:
    """Count all places where a figure of any face stands, dark or light, with its rim.

    Beyond the picture's edge everything counts as rim, so that nothing half seen is missed.
    """
    whole = (1 << width) - 1
    dark = [0, *(row << 1 for row in rows), 0]
    light = [0, *((whole & ~row) << 1 for row in rows), 0]
    return _count_in(dark, width, sort) + _count_in(light, width, sort)


def _count_in(rows: list[int], width: int, sort: Sort) -> int:
    total = 0
    for wide, picture in _rimmed(sort):
        inside = (1 << (width + 3 - wide)) - 1
        order = (1, len(picture) // 2, *range(len(picture)))  # full rows first: most fail there
        for top in range(len(rows) - len(picture) + 1):
            here = inside
            for row in order:
                here &= _row_matches(rows[top + row], *picture[row])
                if not here:
                    break
            total += here.bit_count()
    return total
