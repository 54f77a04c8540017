"""The block with the figures: the code in the ticked squares, others in the rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxwright.dice import Dice
from boxwright.game.wordlists import unsuitable_inside
from boxwright.puzzles.logic_grid_forms import Sort

DIGITS = tuple("0123456789")
COMMON_LETTERS = tuple("ABCDEFGHIKLMNOPRSTUVWY")
"""Letters that many words are made of, so that no word stands out by its own."""

MOST_TRIES = 10  # then another arrangement is drawn
Block = tuple[tuple[str, ...], ...]


def filled(
    size: int,
    code: Sequence[str],
    squares: Sequence[tuple[int, int]],
    sort: Sort,
    faces: Sequence[str],
    dice: Dice,
    *,
    anyhow: bool,
) -> Block | None:
    """Return a block with `code` in `squares`; None if it could be read off without thinking.

    `anyhow` keeps what could; `faces` are the ones to fill up with, where the code is of faces.
    """
    choices = {"digits": DIGITS, "letters": (*COMMON_LETTERS, *code)}.get(sort, tuple(faces))
    for trial in range(MOST_TRIES):
        own = dice.child("block", trial)
        rows = [[own.pick(choices) for _ in range(size)] for _ in range(size)]
        for symbol, (row, column) in zip(code, squares, strict=True):
            rows[row][column] = symbol
        block = tuple(map(tuple, rows))
        if anyhow or not any(_gives_away(line, code, sort) for line in lines(block)):
            return block
    return None


def lines(block: Block) -> Iterator[tuple[str, ...]]:
    """Yield rows, columns and diagonals, and all rows on end, as an eye may read them."""
    size = len(block)
    yield from block
    yield from zip(*block, strict=True)
    for turn in (block, block[::-1]):
        for shift in range(1 - size, size):
            yield tuple(turn[at][at + shift] for at in range(size) if 0 <= at + shift < size)


def _gives_away(line: Sequence[str], code: Sequence[str], sort: Sort) -> bool:
    """Tell whether a line holds the code, either way, or a word that no sheet may show."""
    wanted = tuple(code)
    spans = [tuple(line[at : at + len(wanted)]) for at in range(len(line) - len(wanted) + 1)]
    if len(wanted) > 2 and (wanted in spans or wanted[::-1] in spans):
        return True
    return sort == "letters" and unsuitable_inside("".join(line))
