"""Reads figures out of a shaded picture, wherever they stand, dark or light.

A figure is there where one of the published pictures fits square by square, and the
squares around its strokes (sides and corners) have the other shade. What lies beyond
the picture's edge may be either. Figures are read together when they have one height
and one shade, and stand on one line, or on as many lines as the sheet says.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from itertools import combinations, islice, product
from typing import NamedTuple

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.figures import Sort, faces_of

MOST_READINGS = 5_000
INVERSE = str.maketrans("#.", ".#")


class Placed(NamedTuple):
    """A figure in a picture: its symbol, its top row and left column, its size and shade."""

    top: int
    left: int
    symbol: str
    width: int
    height: int
    dark: bool


def _rimmed(picture: tuple[str, ...]) -> list[str]:
    """Return a picture grown by its rim: `#` stroke, `.` blank, `?` either."""
    height, width = len(picture), len(picture[0])
    strokes = {(y, x) for y in range(height) for x in range(width) if picture[y][x] == "#"}
    beside = [(y, x) for y in (-1, 0, 1) for x in (-1, 0, 1)]

    def sign(y: int, x: int) -> str:
        if (y, x) in strokes:
            return "#"
        boxed = 0 <= y < height and 0 <= x < width
        return "." if boxed or any((y + j, x + i) in strokes for j, i in beside) else "?"

    return ["".join(sign(y, x) for x in range(-1, width + 1)) for y in range(-1, height + 1)]


@cache
def _drawings(sort: Sort) -> tuple[tuple[str, int, tuple[tuple[int, int], ...]], ...]:
    """Return each symbol with each of its pictures: width with rim, (care, dark) bits by row."""
    pairs = {(s, picture) for face in faces_of(sort) for s, picture in face.pictures.items()}
    found = []
    for symbol, picture in sorted(pairs):
        rows = _rimmed(picture)
        bits = tuple((_bits(row, "#."), _bits(row, "#")) for row in rows)
        found.append((symbol, len(rows[0]), bits))
    return tuple(found)


def _bits(row: str, wanted: str) -> int:
    return int("".join("1" if sign in wanted else "0" for sign in row), 2)


def figures_in(grid: Iterable[str], sort: Sort) -> tuple[Placed, ...]:
    """Return every figure of `sort` in a picture of rows of `#` and `.`, from the top left."""
    return _figures_in(tuple(grid), sort)


@lru_cache(maxsize=64)  # checks, key and hints ask of the same few pictures, one after another
def _figures_in(rows: tuple[str, ...], sort: Sort) -> tuple[Placed, ...]:
    return tuple(sorted(_figures(rows, sort)))


def _figures(rows: tuple[str, ...], sort: Sort) -> Iterator[Placed]:
    width = len(rows[0])
    edge = "." * (width + 2)
    for dark in (True, False):
        shaded = rows if dark else [row.translate(INVERSE) for row in rows]
        lines = [_bits(row, "#") for row in (edge, *(f".{row}." for row in shaded), edge)]
        for symbol, wide, drawing in _drawings(sort):
            for top, left in _places(lines, width + 2, wide, drawing):
                yield Placed(top, left, symbol, wide - 2, len(drawing) - 2, dark)


def _places(
    lines: list[int], width: int, wide: int, drawing: tuple[tuple[int, int], ...]
) -> Iterator[tuple[int, int]]:
    """Yield top and left of each place where a drawing fits; its second row is sought first."""
    care, dark = drawing[1]
    for top in range(len(lines) - len(drawing) + 1):
        for shift in _shifts(lines[top + 1], width - wide, care, dark):
            pairs = zip(lines[top:], drawing, strict=False)
            if all(line >> shift & mind == want for line, (mind, want) in pairs):
                yield top, width - wide - shift


@lru_cache(maxsize=4096)
def _shifts(line: int, most: int, care: int, dark: int) -> tuple[int, ...]:
    """Return by how much `line` can be shifted so that `dark` are its dark squares in `care`."""
    return tuple(shift for shift in range(most, -1, -1) if line >> shift & care == dark)


def readings(grid: Iterable[str], sort: Sort, count: int, lines: int) -> list[tuple[str, ...]]:
    """Return all different ways to read `count` figures off `lines` lines of a picture.

    Raises:
        GaveUp: beyond `MOST_READINGS` combinations of figures.
    """
    groups: dict[tuple[int, bool], dict[int, list[Placed]]] = {}
    for figure in figures_in(grid, sort):
        groups.setdefault((figure.height, figure.dark), {}).setdefault(figure.top, []).append(
            figure
        )
    found: dict[tuple[str, ...], None] = {}
    for by_top in groups.values():
        choices = _choices(by_top, count // lines, lines)
        for tried, choice in enumerate(islice(choices, MOST_READINGS + 1)):
            if tried == MOST_READINGS:
                raise GaveUp(MOST_READINGS)
            found[tuple(figure.symbol for figure in choice)] = None
    return list(found)


def _choices(
    by_top: dict[int, list[Placed]], each: int, lines: int
) -> Iterator[tuple[Placed, ...]]:
    """Yield every choice of `each` figures on each of `lines` lines, from the top left."""
    for tops in combinations(sorted(by_top), lines):
        for parts in product(*(combinations(by_top[top], each) for top in tops)):
            yield tuple(figure for part in parts for figure in part)
