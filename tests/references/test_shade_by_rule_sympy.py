"""Source: SymPy (divisors, isprime, perfect_power), and the counts of OEIS A000720 and A000290.

Number rules are built up by the maker and asked one by one by the solver; SymPy answers the
same questions a third way. There are 25 primes below 100 (A000720) and 9 squares (A000290).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import get_args

import pytest
import sympy
from sympy.ntheory.digits import digits
from sympy.ntheory.primetest import is_square

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles import shade_by_rule
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.shade_by_rule_judging import QUESTIONS
from boxwright.puzzles.shade_by_rule_numbers import fitting, others
from boxwright.puzzles.shade_by_rule_sheet import LARGEST, WITH_N, NumberRule

BY_SYMPY: Mapping[NumberRule, Callable[[int, int], bool]] = {
    "above": lambda number, n: bool(sympy.Integer(number) > n),
    "below": lambda number, n: bool(sympy.Integer(number) < n),
    "digit-sum": lambda number, n: sum(digits(number)[1:]) == n,
    "even": lambda number, n: bool(sympy.Integer(number).is_even),
    "factors": lambda number, n: number in sympy.divisors(n),
    "multiples": lambda number, n: n in sympy.divisors(number),
    "odd": lambda number, n: bool(sympy.Integer(number).is_odd),
    "prime": lambda number, n: sympy.isprime(number),
    "square": lambda number, n: is_square(number),
}
RULES: tuple[NumberRule, ...] = get_args(NumberRule)
ALL = range(1, LARGEST + 1)


def about(rule: NumberRule) -> range:
    return range(1, 121) if rule in WITH_N else range(1)


@pytest.mark.parametrize("rule", RULES)
def test_maker_and_solver_agree_with_sympy_on_every_number(rule: NumberRule) -> None:
    for n in about(rule):
        expected = {number for number in ALL if BY_SYMPY[rule](number, n)}
        assert set(fitting(rule, n)) == expected
        assert {number for number in ALL if QUESTIONS[rule](number, n)} == expected
        assert not expected & set(others(rule, n))


def test_there_are_25_primes_and_9_squares_below_100() -> None:
    assert len(fitting("prime", 0)) == 25
    assert fitting("square", 0) == (1, 4, 9, 16, 25, 36, 49, 64, 81)


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("level", LEVELS)
def test_the_shaded_cells_of_a_sheet_are_those_that_sympy_shades(
    rule: NumberRule, level: Level
) -> None:
    answer = Answer("digits", ("4", "0", "7"))
    options = shade_by_rule.Options(number_rule=rule)
    made = shade_by_rule.make(answer, options, Given(level=level), Dice(f"{rule} {level}"))
    (solution,) = shade_by_rule.solve(made.sheet, made.knows)
    squares = made.sheet.sheet
    shaded = [
        "".join("#" if BY_SYMPY[rule](number, squares.n or 0) else "." for number in row)
        for row in squares.cells
    ]
    assert shade_by_rule.solved(made.sheet, made.knows, solution)["rows"] == shaded
    assert solution.answer == answer
