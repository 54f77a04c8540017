"""Source: SymPy (BSD), an independent library of number theory: which numbers fit which rule.

Both ways of ours are held against it for every number: those that the maker builds up, and
the questions that the solver asks. Counts beside it: 25 primes below 100 (OEIS A000040).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import get_args

import pytest
from sympy import divisors, isprime
from sympy.ntheory.digits import digits
from sympy.ntheory.primetest import is_square

from boxwright.dice import Dice
from boxwright.puzzles import shade_by_rule
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.shade_by_rule_judging import QUESTIONS
from boxwright.puzzles.shade_by_rule_numbers import enough, fitting, others
from boxwright.puzzles.shade_by_rule_sheet import LARGEST, WITH_N, NumberRule

RULES: tuple[NumberRule, ...] = get_args(NumberRule)
SYMPY: Mapping[NumberRule, Callable[[int, int], bool]] = {
    "above": lambda number, n: number in range(n + 1, 1000),
    "below": lambda number, n: number in range(n),
    "digit-sum": lambda number, n: sum(digits(number)[1:]) == n,
    "even": lambda number, n: 2 in divisors(number),
    "factors": lambda number, n: number in divisors(n),
    "multiples": lambda number, n: n in divisors(number),
    "odd": lambda number, n: 2 not in divisors(number),
    "prime": lambda number, n: bool(isprime(number)),
    "square": lambda number, n: bool(is_square(number)),
}


@pytest.mark.parametrize("rule", RULES)
def test_maker_and_solver_agree_with_sympy_on_every_number(rule: NumberRule) -> None:
    for n in range(1, LARGEST + 1) if rule in WITH_N else (1,):
        expected = [number for number in range(1, LARGEST + 1) if SYMPY[rule](number, n)]
        assert sorted(fitting(rule, n)) == expected, n
        asked = [number for number in range(1, LARGEST + 1) if QUESTIONS[rule](number, n)]
        assert asked == expected, n
        left = set(range(1, LARGEST + 1)) - set(expected) - ({1} if rule == "prime" else set())
        assert set(others(rule, n)) == left, n


def test_there_are_twenty_five_primes() -> None:
    assert len(fitting("prime", 0)) == 25


@pytest.mark.parametrize("rule", RULES)
def test_the_printed_grid_shows_the_figures_where_sympy_says_that_numbers_fit(
    rule: NumberRule,
) -> None:
    """Shade a made sheet by SymPy alone: the cells are those of the sheet's own working."""
    options = shade_by_rule.Options(number_rule=rule)
    answer = Answer("digits", ("4", "7"))
    for level in ("easier", "hardest"):
        given = Given(level=level)
        assert shade_by_rule.refuse(answer, options, given) is None
        made = shade_by_rule.make(answer, options, given, Dice(f"{rule} {level}"))
        squares = made.sheet.sheet
        if squares.n is not None:
            assert enough(rule, squares.n)
        shaded = [
            "".join("#" if SYMPY[rule](number, squares.n or 0) else "." for number in row)
            for row in squares.cells
        ]
        (solution,) = shade_by_rule.solve(made.sheet, made.knows)
        assert solution.answer == answer
        assert shade_by_rule.solved(made.sheet, made.knows, solution)["rows"] == shaded
