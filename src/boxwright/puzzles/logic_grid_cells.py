"""The crossed table as bits: a bit for each square, where two things meet.

What a statement means for squares is a list of cases, one of which is true; a case ticks
some squares and so crosses others. That is how a person with a pencil works, too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from boxwright.puzzles.logic_grid_forms import COMPARES, Item, Statement
from boxwright.puzzles.logic_grid_solver import MEANS


class Case(NamedTuple):
    """One way in which a statement can be true: squares ticked, and squares crossed by that."""

    ticks: int
    crosses: int


class Cells:
    """The squares of `size` members in each of `count` categories.

    `pairs[k]` are the two things that meet in the square of bit k; `lines` are the masks of
    all lines of squares: one thing, and all members of another category.
    """

    def __init__(self, count: int, size: int) -> None:
        self.count, self.size = count, size
        members = range(size)
        self.pairs: tuple[tuple[Item, Item], ...] = tuple(
            ((c, i), (d, j))
            for c, d in combinations(range(count), 2)
            for i in members
            for j in members
        )
        self.bit: dict[tuple[Item, Item], int] = {}
        for at, (a, b) in enumerate(self.pairs):
            self.bit[a, b] = self.bit[b, a] = 1 << at
        self.row: dict[tuple[Item, int], tuple[int, ...]] = {
            ((c, i), d): tuple(self.bit[(c, i), (d, j)] for j in members)
            for c in range(count)
            for i in members
            for d in range(count)
            if c != d
        }
        self.lines = {sum(bits): key for key, bits in self.row.items()}
        self.all = (1 << len(self.pairs)) - 1
        self._beside = {
            self.bit[a, b]: (sum(self.row[a, b[0]]) | sum(self.row[b, a[0]])) & ~self.bit[a, b]
            for a, b in self.pairs
        }

    def beside(self, square: int) -> int:
        """Return the squares that a tick in `square` crosses: the rest of its two lines."""
        return self._beside[square]

    def squares(self, mask: int) -> Iterator[int]:
        """Yield the bits of `mask` one by one."""
        while mask:
            low = mask & -mask
            yield low
            mask ^= low

    def items(self, square: int) -> tuple[Item, Item]:
        """Return the two things that meet in `square`."""
        return self.pairs[square.bit_length() - 1]

    def case(self, together: Sequence[tuple[Item, Item]]) -> Case | None:
        """Return the case that these pairs go together, None if they cannot."""
        ticks = crosses = 0
        together = self._with_last(together)
        for a, b in together:
            if a[0] == b[0]:
                if a != b:
                    return None
                continue
            ticks |= self.bit[a, b]
            crosses |= self._beside[self.bit[a, b]]
        crosses |= self._strangers(together)
        return None if ticks & crosses else Case(ticks, crosses)

    def _with_last(self, together: Sequence[tuple[Item, Item]]) -> list[tuple[Item, Item]]:
        """Return pairs with the one that is left where all others of a block are ticked."""
        pairs = list(together)
        (a, x), *_ = pairs
        of = (a[0], x[0])
        if len(pairs) == self.size - 1 > 1 and all((b[0], y[0]) == of for b, y in pairs):
            members = range(self.size)
            rest = [
                next(i for i in members if i not in {pair[side][1] for pair in pairs})
                for side in (0, 1)
            ]
            pairs.append(((of[0], rest[0]), (of[1], rest[1])))
        return pairs

    def _strangers(self, together: Sequence[tuple[Item, Item]]) -> int:
        """Return the squares of things that cannot meet, since their partners are two."""
        found = 0
        for one, other in combinations(together, 2):
            for a, x in (one, one[::-1]):
                for b, y in (other, other[::-1]):
                    if x[0] == y[0] and x != y and a[0] != b[0]:
                        found |= self.bit[a, b]
        return found

    def cases(self, statement: Statement, ordered: int) -> tuple[Case, ...]:
        """Return the cases of a statement; `ordered` is the category that comparisons mean."""
        found = (self.case(pairs) for pairs in self._together(statement, ordered))
        if statement.form in ("not", "neither"):
            a, *others = statement.items
            return (Case(0, sum(self.bit[a, b] for b in others if a[0] != b[0])),)
        return tuple(case for case in found if case is not None)

    def _together(
        self, statement: Statement, ordered: int
    ) -> Iterator[tuple[tuple[Item, Item], ...]]:
        form, items = statement.form, statement.items
        if form in COMPARES:
            for p in range(self.size):
                for q in range(self.size):
                    if MEANS[form](statement.by, (p, q)):
                        yield (items[0], (ordered, p)), (items[1], (ordered, q))
        elif form == "pair":
            a, b, x, y = items
            yield (a, x), (b, y)
            yield (a, y), (b, x)
        else:
            for other in items[1:]:
                yield ((items[0], other),)


@lru_cache(maxsize=16)
def cells(count: int, size: int) -> Cells:
    """Return the squares of a crossed table."""
    return Cells(count, size)
