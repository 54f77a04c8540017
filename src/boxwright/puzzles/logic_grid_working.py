"""The working that a person with a pencil finds: each find rests on finds before it.

In rounds: a round uses only what stood there before it, so the depth of a find is the
length of the longest chain that leads to it. Filling in what follows from a tick, or from
a line with one square left, is bookkeeping and costs no depth. Where nothing can be found
any more, one square is supposed and led to a contradiction; a made sheet never needs that.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from boxwright.frozen import frozen_value
from boxwright.puzzles.logic_grid_cells import Case, Cells, cells
from boxwright.puzzles.logic_grid_forms import Item, Puzzle
from boxwright.puzzles.logic_grid_solver import base_of

How = Literal["statement", "carry", "apart", "only", "suppose"]


@frozen_value
class Find:
    """Squares found: `statement` says where from, `about` what two things led there.

    `needs` are the numbers of the finds that it rests on.
    """

    how: How
    statement: int
    about: tuple[Item, ...]
    ticks: int
    crosses: int
    needs: frozenset[int]
    depth: int


@frozen_value
class Working:
    """Finds in their order, the squares ticked in the end, and whether all is settled."""

    finds: tuple[Find, ...]
    ticked: int
    done: bool
    contradiction: bool

    @property
    def depth(self) -> int:
        """The length of the longest chain."""
        return max((find.depth for find in self.finds), default=0)

    @property
    def supposes(self) -> bool:
        """Whether a square had to be supposed."""
        return any(find.how == "suppose" for find in self.finds)


class _Plan(NamedTuple):
    """A find to be noted; `why` are the squares that it rests on."""

    how: How
    why: int
    statement: int = -1
    about: tuple[Item, ...] = ()
    ticks: int = 0
    crosses: int = 0
    cost: int = 1


class _Contradiction(Exception):  # noqa: N818 - a result of supposing, not a fault
    """A line has no square left, or a statement no case."""


class _Pencil:
    """The crossed table while it is being filled."""

    def __init__(self, grid: Cells, cases: Sequence[tuple[Case, ...]]) -> None:
        self.grid, self.cases = grid, cases
        self.crossed = self.ticked = 0
        self.source: dict[int, int] = {}
        self.finds: list[Find] = []

    def copy(self) -> _Pencil:
        """Return the same table to try something on."""
        other = _Pencil(self.grid, self.cases)
        other.crossed, other.ticked = self.crossed, self.ticked
        other.source, other.finds = dict(self.source), list(self.finds)
        return other

    @property
    def done(self) -> bool:
        """Whether every square is ticked or crossed."""
        return self.crossed | self.ticked == self.grid.all

    def add(self, plan: _Plan) -> None:
        """Note a find, if it is new."""
        ticks, crosses = plan.ticks & ~self.ticked, plan.crosses & ~self.crossed
        if not ticks | crosses:
            return
        needs = frozenset(self.source[square] for square in self.grid.squares(plan.why))
        depth = plan.cost + max((self.finds[need].depth for need in needs), default=0)
        for square in self.grid.squares(ticks | crosses):
            self.source.setdefault(square, len(self.finds))
        find = Find(plan.how, plan.statement, plan.about, ticks, crosses, needs, depth)
        self.finds.append(find)
        self.crossed |= crosses
        self._tick(ticks)

    def _tick(self, ticks: int) -> None:
        """Tick squares, and cross what that crosses."""
        self.ticked |= ticks
        for square in self.grid.squares(ticks):
            for other in self.grid.squares(self.grid.beside(square) & ~self.crossed):
                self.source[other] = self.source[square]
                self.crossed |= other
        if self.ticked & self.crossed:
            raise _Contradiction

    def keep_books(self) -> None:
        """Tick the last square of each line until there is no such line."""
        before = -1
        while before != len(self.finds):
            before = len(self.finds)
            for line, key in self.grid.lines.items():
                left = line & ~self.crossed
                if not left:
                    raise _Contradiction
                if not left & (left - 1) and not left & self.ticked:
                    self.add(_Plan("only", line ^ left, about=(key[0],), ticks=left, cost=0))

    def round(self) -> bool:
        """Find all that follows from what stands there now; tell whether that is anything."""
        had = len(self.finds)
        state = (self.crossed, self.ticked)
        planned = [*self._from_statements(*state), *self._carried(*state), *self._apart(*state)]
        for plan in planned:
            self.add(plan)
        self.keep_books()
        return len(self.finds) > had

    def _from_statements(self, crossed: int, ticked: int) -> Iterator[_Plan]:
        for number, cases in enumerate(self.cases):
            live = [c for c in cases if not (c.ticks & crossed or c.crosses & ticked)]
            if not live:
                raise _Contradiction
            common = self.grid.all
            for case in live:
                common &= case.crosses
            ticks = live[0].ticks if len(live) == 1 else 0
            if ticks & ~ticked or common & ~crossed:
                crosses = common if not ticks else common & ~self._implied(ticks)
                why = self._reasons(cases, crossed, ticked)
                yield _Plan("statement", why, number, ticks=ticks, crosses=crosses)

    def _implied(self, ticks: int) -> int:
        found = 0
        for square in self.grid.squares(ticks):
            found |= self.grid.beside(square)
        return found

    def _reasons(self, cases: Sequence[Case], crossed: int, ticked: int) -> int:
        """Return for each dead case one square that excludes it."""
        why = 0
        for case in cases:
            against = (case.ticks & crossed) or (case.crosses & ticked)
            why |= against & -against
        return why

    def _carried(self, crossed: int, ticked: int) -> Iterator[_Plan]:
        """Two things that go together lack the same: what is crossed for one is for the other."""
        for square in self.grid.squares(ticked):
            a, b = self.grid.items(square)
            for third in range(self.grid.count):
                if third in (a[0], b[0]):
                    continue
                found = why = 0
                for left, right in zip(
                    self.grid.row[a, third], self.grid.row[b, third], strict=True
                ):
                    if (left & crossed == 0) != (right & crossed == 0):
                        why |= (left | right) & crossed
                        found |= (left | right) & ~crossed
                if found:
                    yield _Plan("carry", why | square, about=(a, b), crosses=found)

    def _apart(self, crossed: int, ticked: int) -> Iterator[_Plan]:
        """Two things that share no open member of a third category cannot go together."""
        for square in self.grid.squares(self.grid.all & ~crossed & ~ticked):
            a, b = self.grid.items(square)
            for third in range(self.grid.count):
                if third in (a[0], b[0]):
                    continue
                pairs = list(zip(self.grid.row[a, third], self.grid.row[b, third], strict=True))
                if all((left | right) & crossed for left, right in pairs):
                    why = 0
                    for left, right in pairs:
                        against = (left | right) & crossed
                        why |= against & -against
                    yield _Plan("apart", why, about=(a, b), crosses=square)
                    break

    def suppose(self) -> bool:
        """Cross the first square whose tick leads to a contradiction."""
        for square in self.grid.squares(self.grid.all & ~self.crossed & ~self.ticked):
            trial = self.copy()
            try:
                trial.add(_Plan("suppose", 0, about=self.grid.items(square), ticks=square))
                trial.keep_books()
                while trial.round():
                    pass
            except _Contradiction:
                why = self.crossed
                cost = max(1, trial.finds[-1].depth)
                about = self.grid.items(square)
                self.add(_Plan("suppose", why, about=about, crosses=square, cost=cost))
                self.keep_books()
                return True
        return False


def work(puzzle: Puzzle, *, suppose: bool = True) -> Working:
    """Return the working of a puzzle, with what it did not need left out."""
    grid = cells(len(puzzle.categories), len(puzzle.categories[0].members))
    cases = [grid.cases(statement, base_of(puzzle)) for statement in puzzle.statements]
    pencil = _Pencil(grid, cases)
    contradiction = False
    try:
        while not pencil.done and (pencil.round() or (suppose and pencil.suppose())):
            pass
    except _Contradiction:
        contradiction = True
    return Working(_needed(pencil), pencil.ticked, pencil.done, contradiction)


def _needed(pencil: _Pencil) -> tuple[Find, ...]:
    """Return the finds that some tick with the first category rests on, numbered anew."""
    if not pencil.done:
        return tuple(pencil.finds)
    goal = [
        pencil.source[square]
        for square in pencil.grid.squares(pencil.ticked)
        if pencil.grid.items(square)[0][0] == 0
    ]
    wanted: set[int] = set()
    while goal:
        at = goal.pop()
        if at not in wanted:
            wanted.add(at)
            goal += pencil.finds[at].needs
    number = {old: new for new, old in enumerate(sorted(wanted))}
    return tuple(
        Find(
            find.how,
            find.statement,
            find.about,
            find.ticks,
            find.crosses,
            frozenset(number[need] for need in find.needs),
            find.depth,
        )
        for old, find in enumerate(pencil.finds)
        if old in wanted
    )
