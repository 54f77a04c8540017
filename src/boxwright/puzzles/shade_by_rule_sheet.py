"""What a grid to shade by a rule prints, and what pupils know besides."""

from __future__ import annotations

from typing import Literal

from boxwright.frozen import frozen_value
from boxwright.puzzles.figures import Sort

NumberRule = Literal[
    "above", "below", "digit-sum", "even", "factors", "multiples", "odd", "prime", "square"
]

WITH_N: frozenset[NumberRule] = frozenset({"above", "below", "digit-sum", "factors", "multiples"})
"""Rules that need a number: more than 40, digits that add up to 9."""

LARGEST = 99
"""The largest number in a cell; three digits would need cells too broad for large print."""


@frozen_value
class Squares:
    """What is printed.

    With statements, `rule` is the teacher's rule (`""`: the statement is true), and `cells`
    hold the statements' numbers, from 1 in the order of the list. With a number rule,
    `rule` is None, the list is empty and the rule is held against the numbers themselves.
    `cells` go by row from the top, each from the left. `figures` of one `sort` appear, on
    `lines` lines.
    """

    rule: str | None
    number_rule: NumberRule | None
    n: int | None
    statements: tuple[str, ...]
    cells: tuple[tuple[int, ...], ...]
    sort: Sort
    figures: int
    lines: int


@frozen_value
class Sheet:
    """The one part."""

    sheet: Squares | None = None


@frozen_value
class Fact:
    """Whether one statement fits the rule, on the teacher's word."""

    statement: str
    fits: bool


@frozen_value
class Knows:
    """What pupils bring along: whether each statement fits, in alphabetical order."""

    facts: tuple[Fact, ...] = ()
