"""Chooses the statements: true, just enough of them, and as hard together as is wanted.

From all true statements some are drawn until one arrangement is left; then each that the
rest can do without goes. Of several such sets the one is taken whose working, as a person
would find it, comes nearest to what the level asks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import combinations, permutations, product
from typing import TypeAlias

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import Level
from boxwright.puzzles.logic_grid_forms import (
    Arrangement,
    Category,
    Form,
    Item,
    Statement,
)
from boxwright.puzzles.logic_grid_rating import rounds
from boxwright.puzzles.logic_grid_room import height_of
from boxwright.puzzles.logic_grid_tables import fits, tables

FORMS: tuple[Form, ...] = (
    "is", "not", "either", "neither", "pair", "before", "by", "beside",
)  # fmt: skip
FEWEST_STATEMENTS, MOST_STATEMENTS = 4, 8
SORTS = 3  # different forms that a set should have
MOST_TRIES = 100
MOST_DRAWN = 100
MOST_BY = 3  # longer steps have no wording


Shape: TypeAlias = tuple[int, int, int]
"""Number of categories, members of each, and which category is ordered (-1: none)."""


@frozen_value
class Wish:
    """What a level asks: members, how deep the working, how many sets to choose from.

    `weights` say how readily each of FORMS is drawn; `most_is` how many plain ones may stand.
    """

    members: int
    depth: tuple[int, int]
    sets: int
    most_is: int
    weights: tuple[int, ...]


WISHES: Mapping[Level, Wish] = {
    "easier": Wish(3, (1, 2), 12, 2, (6, 4, 3, 3, 2, 2, 3, 1)),
    "ordinary": Wish(4, (3, 3), 12, 1, (3, 3, 4, 3, 3, 3, 3, 2)),
    "harder": Wish(4, (4, 5), 12, 0, (0, 2, 4, 3, 4, 3, 3, 4)),
    "hardest": Wish(5, (6, 8), 12, 0, (0, 2, 4, 3, 4, 3, 3, 4)),
}


def chosen(
    categories: tuple[Category, ...],
    arrangement: Arrangement,
    wish: Wish,
    room: float,
    dice: Dice,
) -> tuple[Statement, ...]:
    """Return statements that leave `arrangement` alone, none of them to spare.

    They fit into `room` (millimetres, see `logic_grid_room`) if any of many sets does.
    """
    ordered = next((at for at, one in enumerate(categories) if one.ordered), -1)
    shape = (len(categories), len(arrangement[0]), ordered)
    pool = true_statements(shape, arrangement)
    good: list[tuple[tuple[float, ...], int, tuple[Statement, ...]]] = []
    fitting = 0
    for trial in range(MOST_TRIES):
        statements = _one_set(shape, pool, wish, dice.child("set", trial))
        height = sum(height_of(statement, categories) for statement in statements)
        rank = _rank(shape, statements, wish, max(0.0, height - room))
        if rank is not None:
            good.append((rank, trial, statements))
            fitting += rank[0] == 0
            if fitting == wish.sets or not any(rank):
                break
    return min(good)[2] if good else _plain(arrangement)


def _plain(arrangement: Arrangement) -> tuple[Statement, ...]:
    """Return plain statements that tell all: the way out that there always is."""
    first = arrangement[0]
    return tuple(
        Statement("is", ((0, member), (category, arrangement[category].index(first[member]))))
        for category in range(1, len(arrangement))
        for member in range(len(first) - 1)
    )


def _rank(
    shape: Shape, statements: Sequence[Statement], wish: Wish, over: float
) -> tuple[float, ...] | None:
    """Return how far a set is from what is wished, lowest best; None if it will not do.

    `over`: millimetres that it lacks on the paper.
    """
    if len(statements) > MOST_STATEMENTS:
        return None
    depth = rounds(statements, *shape)
    if depth is None:
        return None
    low, high = wish.depth
    off = max(low - depth, depth - high, 0)
    sorts = len({statement.form for statement in statements})
    plain = max(0, SORTS - sorts) + max(0, FEWEST_STATEMENTS - len(statements))
    return over, off, plain


def _one_set(
    shape: Shape, pool: Mapping[Form, Sequence[Statement]], wish: Wish, dice: Dice
) -> tuple[Statement, ...]:
    """Draw true statements until they leave one arrangement, then drop what is to spare."""
    table = tables(*_counted(shape))
    left, drawn = table.all, list[Statement]()
    plain = 0
    for statement in _drawn(pool, wish, dice):
        if statement.form == "is" and plain >= wish.most_is:
            continue
        less = left & table.of(statement)
        if less != left:
            left = less
            drawn.append(statement)
            plain += statement.form == "is"
        if not left & (left - 1):
            break
    kept = without_spare(drawn, shape, dice)
    return tuple(dice.shuffled(kept))


def _counted(shape: Shape) -> Shape:
    """Return a shape with the category that counts the places: the ordered, else the first."""
    count, size, ordered = shape
    return count, size, max(0, ordered)


def _drawn(pool: Mapping[Form, Sequence[Statement]], wish: Wish, dice: Dice) -> Iterator[Statement]:
    """Yield statements of `pool` at random, forms by weight; then all that settle it anyhow."""
    bag = [
        form for form, w in zip(FORMS, wish.weights, strict=True) if pool[form] for _ in range(w)
    ]
    for _ in range(MOST_DRAWN):
        yield dice.pick(pool[dice.pick(bag)])
    yield from pool["not"]


def without_spare(statements: Sequence[Statement], shape: Shape, dice: Dice) -> list[Statement]:
    """Return `statements` less all that the others can do without; plain ones go first."""
    table = tables(*_counted(shape))
    kept = list(statements)
    order = dice.shuffled(statements)
    order.sort(key=lambda statement: statement.form != "is")
    for statement in order:
        left = table.all
        for other in kept:
            if other is not statement:
                left &= table.of(other)
        if not left & (left - 1):
            kept = [other for other in kept if other is not statement]
    return kept


def true_statements(shape: Shape, arrangement: Arrangement) -> dict[Form, list[Statement]]:
    """Return every statement of the printed forms that holds in `arrangement`, by form."""
    found: dict[Form, list[Statement]] = {form: [] for form in FORMS}
    for statement in _statements(*shape):
        if fits(statement, arrangement):
            found[statement.form].append(statement)
    return found


@lru_cache(maxsize=16)
def _statements(count: int, size: int, ordered: int) -> tuple[Statement, ...]:
    """Return every statement that can be printed; `ordered` is a category, or -1.

    Things of one category stand in the order of the sheet, so that this order tells nothing.
    """
    items = [[(category, member) for member in range(size)] for category in range(count)]
    found: list[Statement] = []
    for c in range(count):
        for d in range(count):
            if c < d:
                found += _of_two(items[c], items[d])
            if c != d and c < count - 1:
                found += _of_three(items[c], items[d])
            for e in range(d, count):
                if c not in (d, e) and c < count - 1 and (d != e or c < d):
                    found += _of_four(items[c], items[d], items[e])
    if ordered >= 0:
        found += _comparisons([one for row in items for one in row if one[0] != ordered], size)
    return tuple(found)


def _of_two(some: list[Item], others: list[Item]) -> Iterator[Statement]:
    for a, b in product(some, others):
        yield Statement("is", (a, b))
        yield Statement("not", (a, b))


def _of_three(some: list[Item], others: list[Item]) -> Iterator[Statement]:
    for a, (b, c) in product(some, combinations(others, 2)):
        yield Statement("either", (a, b, c))
        yield Statement("neither", (a, b, c))


def _of_four(some: list[Item], ones: list[Item], others: list[Item]) -> Iterator[Statement]:
    ends = list(combinations(ones, 2) if ones == others else product(ones, others))
    for (a, b), (x, y) in product(combinations(some, 2), ends):
        yield Statement("pair", (a, b, x, y))


def _comparisons(things: list[Item], size: int) -> Iterator[Statement]:
    """Yield comparisons by the ordered category between `things` of the others."""
    for a, b in permutations(things, 2):
        yield Statement("before", (a, b))
        for by in range(1, min(MOST_BY + 1, size)):
            yield Statement("by", (a, b), by)
        if a < b:
            yield Statement("beside", (a, b))
