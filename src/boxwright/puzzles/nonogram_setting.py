"""Figures set on a board that nothing touches: the mould that a picture is drawn around."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.puzzles.figures import Face

Tone = Literal["dark", "light"]

ROOM_ABOVE = 6  # rows for the ground; with fewer, a broad board would leave none to draw on


@frozen_value
class Mould:
    """What the figures fix: squares that are `kept`, and which of these are `dark`."""

    width: int
    height: int
    lines: int
    tone: Tone
    kept: tuple[int, ...]
    dark: tuple[int, ...]

    def free(self, x: int, y: int) -> bool:
        """Tell whether the square belongs to the ground."""
        return not self.kept[y] >> x & 1


@frozen_value
class Setting:
    """How figures are set: their face, in how many rows, how far apart, dark or light."""

    face: Face
    lines: int
    gap: int
    tone: Tone

    @property
    def plaque(self) -> int:
        """How far the plain board reaches beyond the figures; light ones need more of it."""
        return 2 if self.tone == "light" else 1

    def rows(self, symbols: Sequence[str]) -> list[Sequence[str]]:
        """Return the symbols of each row."""
        each = len(symbols) // self.lines
        return [symbols[n : n + each] for n in range(0, len(symbols), each)]

    def span(self, symbols: Sequence[str]) -> tuple[int, int]:
        """Return how many columns and rows the boxes of all figures take."""
        wide = [sum(self.face.width(s) + self.gap for s in row) for row in self.rows(symbols)]
        return max(wide) - self.gap, self.lines * (self.face.height + self.gap) - self.gap

    def strokes(self, symbols: Sequence[str]) -> Iterator[tuple[int, int]]:
        """Yield the stroke squares of all figures, from the top left of the first."""
        for line, row in enumerate(self.rows(symbols)):
            left, top = 0, line * (self.face.height + self.gap)
            for symbol in row:
                for y, squares in enumerate(self.face.pictures[symbol]):
                    yield from ((left + x, top + y) for x, s in enumerate(squares) if s == "#")
                left += self.face.width(symbol) + self.gap


def mould(symbols: Sequence[str], setting: Setting, least: tuple[int, int], dice: Dice) -> Mould:
    """Place the figures by chance in a picture of at least the size `least`."""
    wide, high = setting.span(symbols)
    width, height = max(least[0], wide + 2), max(least[1], high + 2)
    left = dice.between(1, width - wide - 1)
    top = dice.between(1, height - high - 1)
    strokes = [0] * height
    for x, y in setting.strokes(symbols):
        strokes[top + y] |= 1 << (left + x)
    beside = setting.plaque
    above = beside if height - high >= ROOM_ABOVE else 1
    board = ((1 << wide + 2 * beside) - 1) << left >> beside
    boards = [board if top - above <= y < top + high + above else 0 for y in range(height)]
    kept = [row & (1 << width) - 1 for row in near(strokes, boards)]
    rims = [near & ~stroke for near, stroke in zip(kept, strokes, strict=True)]
    dark = strokes if setting.tone == "dark" else rims
    return Mould(width, height, setting.lines, setting.tone, tuple(kept), tuple(dark))


def near(strokes: Sequence[int], boxes: Sequence[int]) -> list[int]:
    """Return, by row, the strokes, all squares that touch one, and `boxes`."""
    tall = [a | b | c for a, b, c in zip([0, *strokes], strokes, [*strokes[1:], 0], strict=False)]
    return [row | row << 1 | row >> 1 | box for row, box in zip(tall, boxes, strict=True)]
