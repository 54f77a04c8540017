"""Which numbers fit, asked of one number at a time; and what the grid then shows.

The maker builds its numbers up instead (`shade_by_rule_numbers`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import product
from typing import NamedTuple

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.nonogram_reading import readings
from boxwright.puzzles.shade_by_rule_sheet import Knows, NumberRule, Squares

MOST_JUDGEMENTS = 256


class Shaded(NamedTuple):
    """The numbers that fit, the grid by row (`#` shaded), and all texts that it reads as."""

    fits: frozenset[int]
    grid: tuple[str, ...]
    texts: tuple[tuple[str, ...], ...]


def _is_prime(number: int) -> bool:
    return number > 1 and all(number % one for one in range(2, number) if one * one <= number)


def _is_square(number: int) -> bool:
    return any(root * root == number for root in range(number + 1))


QUESTIONS: Mapping[NumberRule, Callable[[int, int], bool]] = {
    "above": lambda number, n: number > n,
    "below": lambda number, n: number < n,
    "digit-sum": lambda number, n: sum(map(int, str(number))) == n,
    "even": lambda number, n: number % 2 == 0,
    "factors": lambda number, n: n % number == 0,
    "multiples": lambda number, n: number % n == 0,
    "odd": lambda number, n: number % 2 == 1,
    "prime": lambda number, n: _is_prime(number),
    "square": lambda number, n: _is_square(number),
}
"""For each rule: does `number` fit, where the rule is about `n`?"""


def judgements(squares: Squares, knows: Knows) -> Iterator[frozenset[int]]:
    """Yield every set of numbers that may fit; where it is not known of one, both ways.

    Raises:
        GaveUp: after `MOST_JUDGEMENTS` sets.
    """
    if squares.number_rule is not None:
        asked = QUESTIONS[squares.number_rule]
        used = {number for row in squares.cells for number in row}
        yield frozenset(number for number in used if asked(number, squares.n or 0))
        return
    known = {_plainly(fact.statement): fact.fits for fact in knows.facts}
    said = [known.get(_plainly(text)) for text in squares.statements]
    ways = product(*((False, True) if one is None else (one,) for one in said))
    for count, way in enumerate(ways):
        if count == MOST_JUDGEMENTS:
            raise GaveUp(MOST_JUDGEMENTS)
        yield frozenset(number for number, fits in enumerate(way, start=1) if fits)


def _plainly(text: str) -> str:
    return " ".join(text.split()).rstrip(".!? ").casefold()


def shade(squares: Squares, fits: frozenset[int]) -> tuple[str, ...]:
    """Return the grid with the cells shaded that hold one of `fits`."""
    return tuple("".join("#" if it in fits else "." for it in row) for row in squares.cells)


def shadings(squares: Squares, knows: Knows) -> Iterator[Shaded]:
    """Yield every grid that may come out, and how it reads; see `judgements`."""
    for fits in judgements(squares, knows):
        grid = shade(squares, fits)
        texts = readings(grid, squares.sort, squares.figures, squares.lines)
        yield Shaded(fits, grid, tuple(texts))
