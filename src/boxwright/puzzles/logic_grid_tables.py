"""Truth tables: a bit for every arrangement there is, so that proving is one AND.

For three categories of five that are 14,400 bits, for four categories of three 216. The
maker proves with these; `logic_grid_solver` searches, and shares nothing with them.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations, permutations, product

from boxwright.puzzles.logic_grid_forms import Arrangement, Form, Item, Statement


class Tables:
    """Truth tables of statements over all arrangements of `count` categories of `size`.

    Category `base` counts the places, so it is the same in every arrangement.
    """

    def __init__(self, count: int, size: int, base: int) -> None:
        self.count, self.size, self.base = count, size, base
        self.orders = tuple(permutations(range(size)))
        self.all = (1 << len(self.orders) ** (count - 1)) - 1
        self._at: dict[tuple[Item, int], int] = {}
        for category in range(count):
            for member, place in product(range(size), repeat=2):
                self._at[(category, member), place] = self._where(category, member, place)
        self._known: dict[Statement, int] = {}
        self._squares: dict[tuple[Item, Item], int] = {}

    def _where(self, category: int, member: int, place: int) -> int:
        """Return the arrangements in which a thing stands in `place`."""
        if category == self.base:
            return self.all if member == place else 0
        number = category - (category > self.base)
        step: int = len(self.orders) ** number
        run = (1 << step) - 1
        period = sum(run << step * at for at, o in enumerate(self.orders) if o[member] == place)
        repeat: int = len(self.orders) ** (self.count - 2 - number)
        width = step * len(self.orders)
        return period * (((1 << width * repeat) - 1) // ((1 << width) - 1))

    def of(self, statement: Statement) -> int:
        """Return the arrangements in which `statement` holds."""
        known = self._known.get(statement)
        if known is None:
            known = self._known[statement] = self._made(statement)
        return known

    def _made(self, statement: Statement) -> int:
        found = 0
        items = statement.items
        for places in product(range(self.size), repeat=len(items)):
            if holds(statement.form, statement.by, places):
                together = self.all
                for item, place in zip(items, places, strict=True):
                    together &= self._at[item, place]
                found |= together
        return found

    def squares(self) -> dict[tuple[Item, Item], int]:
        """Return for each two things of different categories where they go together."""
        if not self._squares:
            items = list(product(range(self.count), range(self.size)))
            self._squares = {
                (a, b): self.of(Statement("is", (a, b)))
                for a, b in combinations(items, 2)
                if a[0] != b[0]
            }
        return self._squares


@lru_cache(maxsize=8)
def tables(count: int, size: int, base: int) -> Tables:
    """Return the truth tables for puzzles of one shape; what is found once is kept."""
    return Tables(count, size, base)


def holds(form: Form, by: int, places: tuple[int, ...]) -> bool:
    """Tell whether a statement holds when its things stand in `places`."""
    a, b, *rest = places
    match form:
        case "is":
            return a == b
        case "not":
            return a != b
        case "either":
            return (a == b) != (a == rest[0])
        case "neither":
            return a not in (b, rest[0])
        case "pair":
            return a != b and {a, b} == set(rest)
        case "before":
            return a < b
        case "by":
            return b - a == by
        case "beside":
            return abs(a - b) == 1


def fits(statement: Statement, arrangement: Arrangement) -> bool:
    """Tell whether `arrangement` is as `statement` says."""
    places = tuple(arrangement[category][member] for category, member in statement.items)
    return holds(statement.form, statement.by, places)
