"""What a shaded picture is taken for: read in another order, turned, or one square off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.figures import Sort, faces_of
from boxwright.puzzles.nonogram_reading import Placed, figures_in, readings

Symbols = tuple[str, ...]


class Misreading(NamedTuple):
    """Symbols read in place of the right ones, why, and whether pupils could notice it."""

    symbols: Symbols
    means: Message
    noticed: bool


def misreadings(
    grid: Sequence[str], sort: Sort, symbols: Symbols, lines: int
) -> Iterator[Misreading]:
    """Yield misreadings of the picture `grid`, the likeliest first; some may be alike."""
    yield from _other_orders(symbols, lines)
    yield from _turned(grid, sort, len(symbols), lines)
    yield from _one_square_off(grid, sort, symbols)


def _other_orders(symbols: Symbols, lines: int) -> Iterator[Misreading]:
    if lines == 2:
        half = len(symbols) // 2
        pairs = zip(symbols[:half], symbols[half:], strict=True)
        downwards = tuple(symbol for pair in pairs for symbol in pair)
        yield Misreading(downwards, say("nonogram.mistake-downwards"), False)
        yield Misreading(
            symbols[half:] + symbols[:half], say("nonogram.mistake-bottom-first"), False
        )
    if len(symbols) > 1:
        yield Misreading(symbols[::-1], say("nonogram.mistake-backwards"), False)


def _turned(grid: Sequence[str], sort: Sort, count: int, lines: int) -> Iterator[Misreading]:
    """Read the picture upside down, and as if rows or columns had been taken backwards.

    The numbers on the paper would then stand on their heads, or no longer fit.
    """
    turned = {
        "nonogram.mistake-upside-down": [row[::-1] for row in reversed(grid)],
        "nonogram.mistake-mirrored": [row[::-1] for row in grid],
        "nonogram.mistake-bottom-up": list(reversed(grid)),
    }
    for id, other in turned.items():
        for symbols in readings(other, sort, count, lines):
            yield Misreading(symbols, Message(id), True)


def _one_square_off(grid: Sequence[str], sort: Sort, symbols: Symbols) -> Iterator[Misreading]:
    """Put one square wrong inside a figure that then looks like another."""
    placed = [figure for figure in figures_in(grid, sort) if figure.symbol in symbols]
    for index, figure in enumerate(placed[: len(symbols)]):
        for other, (y, x) in _look_alikes(figure, sort):
            read = (*symbols[:index], other, *symbols[index + 1 :])
            place = {"row": figure.top + y + 1, "column": figure.left + x + 1}
            means = say("nonogram.mistake-square", other=other, **place)
            yield Misreading(read, means, True)


def _look_alikes(figure: Placed, sort: Sort) -> Iterator[tuple[str, tuple[int, int]]]:
    """Yield figures that differ in one square from this one in its own face, and where."""
    for face in faces_of(sort):
        own = face.pictures[figure.symbol]
        if (len(own), len(own[0])) != (figure.height, figure.width):
            continue
        for symbol, picture in face.pictures.items():
            if symbol != figure.symbol and len(picture[0]) == figure.width:
                differ = _differences(own, picture)
                if len(differ) == 1:
                    yield symbol, differ[0]


def _differences(one: Symbols, other: Symbols) -> list[tuple[int, int]]:
    pairs = enumerate(zip(one, other, strict=True))
    return [(y, x) for y, (a, b) in pairs for x in range(len(a)) if a[x] != b[x]]
