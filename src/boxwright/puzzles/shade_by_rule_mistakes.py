"""What a grid is taken for: one number judged wrongly, one cell off, the page turned."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.figures import faces_of
from boxwright.puzzles.nonogram_reading import Placed, figures_in, readings
from boxwright.puzzles.shade_by_rule_judging import Shaded, shade
from boxwright.puzzles.shade_by_rule_sheet import Squares

Symbols = tuple[str, ...]


class Misreading(NamedTuple):
    """Symbols read in place of the right ones, why, and whether pupils could notice it."""

    symbols: Symbols
    means: Message
    noticed: bool


def misreadings(squares: Squares, shaded: Shaded, symbols: Symbols) -> Iterator[Misreading]:
    """Yield misreadings, the likeliest first; some may be alike, or right after all."""
    yield from _other_orders(symbols, squares.lines)
    yield from _misjudged(squares, shaded)
    yield from _turned(squares, shaded.grid)
    yield from _one_cell_off(squares, shaded.grid, symbols)


def _other_orders(symbols: Symbols, lines: int) -> Iterator[Misreading]:
    if lines == 2:
        half = len(symbols) // 2
        pairs = zip(symbols[:half], symbols[half:], strict=True)
        downwards = tuple(symbol for pair in pairs for symbol in pair)
        yield Misreading(downwards, say("shade-by-rule.mistake-downwards"), False)
        bottom_first = symbols[half:] + symbols[:half]
        yield Misreading(bottom_first, say("shade-by-rule.mistake-bottom-first"), False)
    if len(symbols) > 1:
        yield Misreading(symbols[::-1], say("shade-by-rule.mistake-backwards"), False)


def _misjudged(squares: Squares, shaded: Shaded) -> Iterator[Misreading]:
    """Judge each number in turn wrongly: its cells are shaded if they should not be, or not."""
    for number in sorted({number for row in squares.cells for number in row}):
        grid = shade(squares, shaded.fits ^ {number})
        for symbols in readings(grid, squares.sort, squares.figures, squares.lines):
            yield Misreading(symbols, _misjudgement(squares, number, number in shaded.fits), False)


def _misjudgement(squares: Squares, number: int, fits: bool) -> Message:
    if squares.statements:
        statement = squares.statements[number - 1]
        way = "left" if fits else "taken"
        return say(f"shade-by-rule.mistake-statement-{way}", number=number, statement=statement)
    return say(f"shade-by-rule.mistake-number-{'left' if fits else 'taken'}", number=number)


def _turned(squares: Squares, grid: Sequence[str]) -> Iterator[Misreading]:
    """Read the finished grid upside down; the arrow and the numbers would tell."""
    turned = [row[::-1] for row in reversed(grid)]
    for symbols in readings(turned, squares.sort, squares.figures, squares.lines):
        yield Misreading(symbols, say("shade-by-rule.mistake-upside-down"), True)


def _one_cell_off(squares: Squares, grid: Sequence[str], symbols: Symbols) -> Iterator[Misreading]:
    """Put one cell wrong, by a slip of the pencil, in a figure that then looks like another."""
    placed = [one for one in figures_in(grid, squares.sort) if one.symbol in symbols]
    for at, figure in enumerate(placed[: len(symbols)]):
        for other, (row, column) in _look_alikes(squares, figure):
            means = say("shade-by-rule.mistake-cell", other=other, row=row, column=column)
            yield Misreading((*symbols[:at], other, *symbols[at + 1 :]), means, True)


def _look_alikes(squares: Squares, figure: Placed) -> Iterator[tuple[str, tuple[int, int]]]:
    """Yield figures of the same face that differ in one cell, and that cell's row and column."""
    for face in faces_of(squares.sort):
        own = face.pictures[figure.symbol]
        if (len(own), len(own[0])) != (figure.height, figure.width):
            continue
        for symbol, picture in face.pictures.items():
            if len(picture[0]) != figure.width:
                continue
            off = [
                (figure.top + y + 1, figure.left + x + 1)
                for y in range(figure.height)
                for x in range(figure.width)
                if own[y][x] != picture[y][x]
            ]
            if len(off) == 1:
                yield symbol, off[0]
