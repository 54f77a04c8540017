"""Numbers for the maker: those that fit a rule, built up, and look-alikes that do not.

Nothing here asks whether a number fits: the fitting ones are counted out (every third
number, a sieve, the pairs of digits), so that a fault in the solver's questions would show.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import gcd, isqrt

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles.shade_by_rule_sheet import LARGEST, WITH_N, NumberRule

FEWEST = 3  # different numbers of either sort; with fewer, one slip would spoil a figure
UP_TO: Mapping[Level, int] = {"easier": 30, "ordinary": 50, "harder": LARGEST, "hardest": LARGEST}
NEAR_SHARE: Mapping[Level, float] = {"easier": 0.0, "ordinary": 0.4, "harder": 0.7, "hardest": 1.0}
DIFFERENT: Mapping[Level, int] = {"easier": 8, "ordinary": 11, "harder": 16, "hardest": 22}
"""By level: how far numbers go, how many misfits look like fits, how many of either sort."""

USUAL: Mapping[NumberRule, tuple[tuple[int, ...], ...]] = {
    "multiples": ((2, 5, 10), (3, 4, 5), (6, 7, 8), (7, 8, 9, 12)),
    "factors": ((12, 16, 20), (18, 24, 30), (36, 48, 60), (60, 72, 84, 90)),
    "above": ((10, 15, 20), (22, 25, 28), (46, 57, 64), (47, 59, 68)),
    "below": ((10, 15, 20), (22, 25, 28), (46, 57, 64), (47, 59, 68)),
    "digit-sum": ((3, 4, 5), (5, 6, 7), (8, 9, 10), (11, 12, 13)),
}
"""What a rule is about where the teacher does not say, by level."""


def usual_n(rule: NumberRule, level: Level, dice: Dice) -> int | None:
    """Return a number for `rule` to be about, if it needs one."""
    return dice.pick(USUAL[rule][LEVELS.index(level)]) if rule in WITH_N else None


def fitting(rule: NumberRule, n: int) -> tuple[int, ...]:
    """Return all numbers from 1 to `LARGEST` that fit; `n` is unused where none is needed."""
    built: Mapping[NumberRule, Sequence[int]] = {
        "above": range(n + 1, LARGEST + 1),
        "below": range(1, min(n, LARGEST + 1)),
        "digit-sum": [10 * tens + n - tens for tens in range(10) if 0 <= n - tens <= 9],
        "even": range(2, LARGEST + 1, 2),
        "factors": _factors(n),
        "multiples": range(n, LARGEST + 1, max(n, 1)),
        "odd": range(1, LARGEST + 1, 2),
        "prime": _sieve(),
        "square": [root * root for root in range(1, isqrt(LARGEST) + 1)],
    }
    return tuple(number for number in built[rule] if 1 <= number <= LARGEST)


def _factors(n: int) -> list[int]:
    small = [one for one in range(1, isqrt(max(n, 0)) + 1) if n // one * one == n]
    return sorted({*small, *(n // one for one in small)})


def _sieve() -> list[int]:
    left = set(range(2, LARGEST + 1))
    for one in range(2, isqrt(LARGEST) + 1):
        left -= set(range(2 * one, LARGEST + 1, one))
    return sorted(left)


def others(rule: NumberRule, n: int) -> tuple[int, ...]:
    """Return all numbers that do not fit; 1 is never held against primes, lest pupils argue."""
    fit = {*fitting(rule, n), *((1,) if rule == "prime" else ())}
    return tuple(number for number in range(1, LARGEST + 1) if number not in fit)


def enough(rule: NumberRule, n: int) -> bool:
    """Tell whether enough different numbers fit, and enough do not."""
    return min(len(fitting(rule, n)), len(others(rule, n))) >= FEWEST


def near(rule: NumberRule, n: int, misfits: Sequence[int]) -> set[int]:
    """Return those of `misfits` that are easily taken for fits, or need most thought."""
    fit = fitting(rule, n)
    beside = {number + step for number in fit for step in (-1, 1)}
    swapped = {number % 10 * 10 + number // 10 for number in fit}
    tests: Mapping[NumberRule, set[int]] = {
        "above": set(range(n - 6, n + 1)) | swapped,
        "below": set(range(n, n + 7)) | swapped,
        "digit-sum": beside,
        "even": {number for number in misfits if number // 10 % 2 == 0},
        "factors": {number for number in misfits if gcd(number, n) > 1},
        "multiples": {number for number in misfits if gcd(number, n) > 1} or beside,
        "odd": {number for number in misfits if number // 10 % 2 == 1},
        "prime": {number for number in misfits if gcd(number, 10) == 1},
        "square": beside | {2 * number for number in range(1, 10)},
    }
    return tests[rule] & set(misfits)


def drawn_numbers(
    rule: NumberRule, n: int, level: Level, dice: Dice
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return different numbers that fit and others that do not, as the level asks."""
    count = DIFFERENT[level]
    fit = _within(fitting(rule, n), UP_TO[level])
    misfits = _within(others(rule, n), max(UP_TO[level], *fit))
    close = near(rule, n, misfits)
    by_look = [
        dice.shuffled([number for number in misfits if (number in close) == look])
        for look in (True, False)
    ]
    first = by_look[0][: round(NEAR_SHARE[level] * count)]
    ranked = [*first, *by_look[1], *by_look[0][len(first) :]]
    return tuple(dice.shuffled(fit)[:count]), tuple(ranked[:count])


def _within(numbers: Sequence[int], limit: int) -> list[int]:
    """Return those up to `limit`, or the least numbers where these would be too few."""
    small = [number for number in numbers if number <= limit]
    return small if len(small) > FEWEST else list(numbers[: FEWEST + 1])
