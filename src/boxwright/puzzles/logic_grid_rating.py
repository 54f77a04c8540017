"""How deep the working of a set of statements is, for choosing among sets.

In rounds, with what a pencil can do and no more: one statement together with the marks on
its own squares; what goes together lacks the same; what shares nothing is apart. The maker
counts on truth tables; the working that is shown (`logic_grid_working`) is found anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product

from boxwright.puzzles.logic_grid_forms import COMPARES, Item, Statement
from boxwright.puzzles.logic_grid_tables import Tables, tables

Square = tuple[Item, Item]


def rounds(statements: Sequence[Statement], count: int, size: int, ordered: int) -> int | None:
    """Return how many rounds settle all squares; None where a guess would be needed."""
    rating = _Rating(tables(count, size, max(0, ordered)), statements, ordered)
    for number in range(1, 3 * count * size * size):
        before = len(rating.crossed)
        rating.round()
        if len(rating.crossed) == len(rating.where) * (size - 1) // size:
            return number
        if len(rating.crossed) == before:
            return None
    raise AssertionError("each round crosses a square, or there is no other")


class _Rating:
    """Marks so far: `left[a, category]` has a bit for each member that may still go with a.

    `where` gives the arrangements that tick each square.
    """

    def __init__(self, table: Tables, statements: Sequence[Statement], ordered: int) -> None:
        self.table, self.ordered = table, ordered
        self.where = table.squares()
        self.statements = [(table.of(one), list(self._own(one))) for one in statements]
        self.crossed: set[Square] = set()
        self.left = {
            (a, category): (1 << table.size) - 1
            for a in product(range(table.count), range(table.size))
            for category in range(table.count)
            if category != a[0]
        }

    def _own(self, statement: Statement) -> Iterator[Square]:
        """Yield the squares whose marks a person holds against this statement."""
        items = statement.items
        if statement.form in COMPARES:
            ends = [(self.ordered, place) for place in range(self.table.size)]
            yield from (_square(item, end) for item in items for end in ends)
        yield from (_square(a, b) for a, b in combinations(items, 2) if a[0] != b[0])

    def _cross(self, squares: Iterable[Square]) -> None:
        for a, b in squares:
            if (a, b) not in self.crossed:
                self.crossed.add((a, b))
                self.left[a, b[0]] &= ~(1 << b[1])
                self.left[b, a[0]] &= ~(1 << a[1])

    def round(self) -> None:
        """Cross all that follows from the marks before, then keep the books."""
        self._cross([*self._by_statements(), *self._by_thirds()])
        before = -1
        while before != len(self.crossed):
            before = len(self.crossed)
            for (a, category), mask in list(self.left.items()):
                if mask.bit_count() == 1:
                    self._cross(self._beside_tick(a, (category, mask.bit_length() - 1)))

    def _beside_tick(self, a: Item, b: Item) -> Iterator[Square]:
        for member in range(self.table.size):
            if member != a[1]:
                yield _square((a[0], member), b)

    def _by_statements(self) -> Iterator[Square]:
        open_ = [
            (square, held) for square, held in self.where.items() if square not in self.crossed
        ]
        for holds, own in self.statements:
            left = holds
            for square in own:
                if square in self.crossed:
                    left &= ~self.where[square]
                elif self._is_tick(square):
                    left &= self.where[square]
            yield from (square for square, held in open_ if not held & left)

    def _is_tick(self, square: Square) -> bool:
        a, b = square
        return self.left[a, b[0]] == 1 << b[1]

    def _by_thirds(self) -> Iterator[Square]:
        """Yield squares of things that a third category keeps apart."""
        for a, b in self.where:
            if (a, b) in self.crossed:
                continue
            for third in range(self.table.count):
                if third not in (a[0], b[0]):
                    yield from self._by_third(a, b, third)

    def _by_third(self, a: Item, b: Item, third: int) -> Iterator[Square]:
        left, right = self.left[a, third], self.left[b, third]
        if not left & right:
            yield a, b
        if left != right and self._is_tick((a, b)):
            for member in range(self.table.size):
                if (left ^ right) >> member & 1:
                    lacking = b if left >> member & 1 else a
                    other = a if lacking is b else b
                    yield _square(other, (third, member))


def _square(a: Item, b: Item) -> Square:
    return (a, b) if a < b else (b, a)
