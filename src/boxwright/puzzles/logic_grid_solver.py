"""Finds every arrangement that fits the statements: exact, by narrowing and trying.

For each thing a mask says which places are left. A statement narrows the masks of its
things to what some choice of places supports; a category's places go to one thing each.
Where nothing narrows further, the thing with fewest places left tries each of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import product
from typing import TypeAlias

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.logic_grid_forms import Arrangement, Form, Puzzle, Statement

MOST_TRIALS = 50_000

Masks: TypeAlias = list[list[int]]
Meaning: TypeAlias = Callable[[int, tuple[int, ...]], bool]

MEANS: Mapping[Form, Meaning] = {
    "is": lambda _, p: p[0] == p[1],
    "not": lambda _, p: p[0] != p[1],
    "either": lambda _, p: (p[1:].count(p[0])) == 1,
    "neither": lambda _, p: p[0] not in p[1:],
    "pair": lambda _, p: sorted(p[:2]) == sorted(p[2:]) and p[0] != p[1],
    "before": lambda _, p: p[1] - p[0] > 0,
    "by": lambda by, p: p[0] + by == p[1],
    "beside": lambda _, p: p[0] in (p[1] - 1, p[1] + 1),
}
"""Whether a statement of each form holds, by its number of steps and its things' places."""


@lru_cache(maxsize=100_000)
def _narrowed(
    form: Form, by: int, categories: tuple[int, ...], masks: tuple[int, ...]
) -> tuple[int, ...]:
    """Return which places each thing keeps; things of one category never share a place."""
    kept = [0] * len(masks)
    for places in product(*map(_places, masks)):
        stands = set(zip(categories, places, strict=True))
        if len(stands) == len(places) and MEANS[form](by, places):
            kept = [mask | 1 << place for mask, place in zip(kept, places, strict=True)]
    return tuple(kept)


def _places(mask: int) -> list[int]:
    return [place for place in range(mask.bit_length()) if mask >> place & 1]


def _by_statement(statement: Statement, masks: Masks) -> bool:
    """Narrow by one statement; tell whether anything changed."""
    had = tuple(masks[category][member] for category, member in statement.items)
    categories = tuple(category for category, _ in statement.items)
    kept = _narrowed(statement.form, statement.by, categories, had)
    for (category, member), mask in zip(statement.items, kept, strict=True):
        masks[category][member] = mask
    return kept != had


def _by_category(row: list[int]) -> bool:
    """Give a place that is taken to nobody else, and one that only one can take to that one."""
    had = list(row)
    for at, mask in enumerate(row):
        if mask.bit_count() == 1:
            row[:] = [other if at == where else other & ~mask for where, other in enumerate(row)]
    for place in range(len(row)):
        able = [at for at, mask in enumerate(row) if mask >> place & 1]
        if len(able) == 1:
            row[able[0]] = 1 << place
        elif not able:
            row[:] = [0] * len(row)
    return row != had


def _settle(statements: Sequence[Statement], masks: Masks) -> bool:
    """Narrow until nothing changes; tell whether every thing still has a place."""
    changed = True
    while changed:
        changed = False
        for row in masks:
            changed |= _by_category(row)
        for statement in statements:
            changed |= _by_statement(statement, masks)
        if not all(all(row) for row in masks):
            return False
    return True


def arrangements(
    puzzle: Puzzle, statements: Sequence[Statement] | None = None
) -> Iterator[Arrangement]:
    """Yield every arrangement that fits `statements`, the puzzle's own if none are given.

    Raises:
        GaveUp: after MOST_TRIALS trials.
    """
    size = len(puzzle.categories[0].members)
    masks = [[(1 << size) - 1] * size for _ in puzzle.categories]
    masks[base_of(puzzle)] = [1 << place for place in range(size)]
    spoken = puzzle.statements if statements is None else statements
    trials = 0
    waiting = [masks]
    while waiting:
        masks = waiting.pop()
        trials += 1
        if trials > MOST_TRIALS:
            raise GaveUp(MOST_TRIALS)
        if not _settle(spoken, masks):
            continue
        if _least(masks) is None:
            yield tuple(tuple(mask.bit_length() - 1 for mask in row) for row in masks)
        else:
            waiting += _split(masks)


def _least(masks: Masks) -> tuple[int, int] | None:
    """Return the thing with fewest places left among those that have a choice."""
    open_ = [
        (mask.bit_count(), category, member)
        for category, row in enumerate(masks)
        for member, mask in enumerate(row)
        if mask.bit_count() > 1
    ]
    return min(open_)[1:] if open_ else None


def _split(masks: Masks) -> Iterator[Masks]:
    """Yield what is known under each place that one thing may take."""
    least = _least(masks)
    assert least is not None, "something is open"
    category, member = least
    for place in reversed(_places(masks[category][member])):
        copy = [list(row) for row in masks]
        copy[category][member] = 1 << place
        yield copy


def base_of(puzzle: Puzzle) -> int:
    """Return the category that counts the places."""
    return next((at for at, one in enumerate(puzzle.categories) if one.ordered), 0)


def squares_read(puzzle: Puzzle, arrangement: Arrangement) -> Iterator[tuple[int, int]]:
    """Yield row and column of each figure to be read, in the order of reading."""
    first, second, third = arrangement[:3]
    for member in puzzle.order:
        yield third.index(first[member]), second.index(first[member])


def read(puzzle: Puzzle, arrangement: Arrangement) -> tuple[str, ...]:
    """Return the figures that pupils write down for an arrangement."""
    return tuple(puzzle.figures[row][column] for row, column in squares_read(puzzle, arrangement))
