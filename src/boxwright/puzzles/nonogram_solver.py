"""Finds every picture that fits given runs, as pupils would and then by trying.

Each line keeps the list of its fillings that still fit; what all of them share is
certain. Rows and columns take turns until nothing new turns up, then the line with the
fewest fillings left is tried out, filling by filling. Shares nothing with the maker.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from boxwright.puzzles.contract import GaveUp

Runs = tuple[int, ...]
Way = Literal["rows", "columns"]
Grid = tuple[str, ...]
"""A picture: its rows from the top, `#` dark and `.` light."""

MOST_NODES = 4_000
MOST_FILLINGS = 200_000


class Look(NamedTuple):
    """One look at one line that told something: squares (from 0) now known dark or light.

    `depth` is the pass it belongs to, from 1: what it rests on was found in passes before.
    """

    way: Way
    line: int
    dark: tuple[int, ...]
    light: tuple[int, ...]
    depth: int


class Found(NamedTuple):
    """A picture, the looks that led to it, and how many fillings were tried out on the way."""

    grid: Grid
    looks: tuple[Look, ...]
    guesses: int


def count_fillings(runs: Runs, size: int) -> int:
    """Return in how many ways `runs` can lie in a line of `size` squares."""
    from math import comb

    wanted = [run for run in runs if run]
    slack = size - sum(wanted) + 1
    return comb(slack, len(wanted)) if slack >= len(wanted) else 0


@lru_cache(maxsize=4096)
def fillings(runs: Runs, size: int) -> tuple[int, ...]:
    """Return all fillings of a line, first square in the highest bit."""
    wanted = [run for run in runs if run]
    if not wanted:
        return (0,)
    first, rest = wanted[0], tuple(wanted[1:])
    if not rest:
        block = (1 << first) - 1
        return tuple(block << shift for shift in range(size - first, -1, -1))
    found: list[int] = []
    for start in range(size - first - sum(rest) - len(rest) + 1):
        left = size - start - first - 1
        head = ((1 << first) - 1) << (left + 1)
        found += [head | tail for tail in fillings(rest, left)]
    return tuple(found)


class _Board:
    """Fillings that still fit, by line, and what is certain of the squares."""

    def __init__(self, rows: Sequence[Runs], columns: Sequence[Runs]) -> None:
        self.size = {"rows": len(columns), "columns": len(rows)}
        self.left = {
            "rows": [fillings(runs, len(columns)) for runs in rows],
            "columns": [fillings(runs, len(rows)) for runs in columns],
        }
        self.dark = {"rows": [0] * len(rows), "columns": [0] * len(columns)}
        self.light = {"rows": [0] * len(rows), "columns": [0] * len(columns)}
        self.looks: list[Look] = []
        self.guesses = 0

    def copy(self) -> _Board:
        """Return a board to try something out on."""
        twin = object.__new__(_Board)
        twin.size, twin.looks, twin.guesses = self.size, list(self.looks), self.guesses + 1
        twin.left = {way: list(lines) for way, lines in self.left.items()}
        twin.dark = {way: list(lines) for way, lines in self.dark.items()}
        twin.light = {way: list(lines) for way, lines in self.light.items()}
        return twin

    def look(self, way: Way, line: int, depth: int) -> list[int] | None:
        """Look at a line; return the places that became certain, or None if nothing fits."""
        dark, light = self.dark[way][line], self.light[way][line]
        fit = [f for f in self.left[way][line] if f & dark == dark and not f & light]
        if not fit:
            return None
        self.left[way][line] = tuple(fit)
        always, ever = fit[0], 0
        for filling in fit:
            always &= filling
            ever |= filling
        whole = (1 << self.size[way]) - 1
        self.dark[way][line], self.light[way][line] = always, whole & ~ever
        now_dark = self._cross(way, line, always & ~dark, self.dark)
        now_light = self._cross(way, line, whole & ~ever & ~light, self.light)
        if now_dark or now_light:
            self.looks.append(Look(way, line, tuple(now_dark), tuple(now_light), depth))
        return now_dark + now_light

    def _cross(self, way: Way, line: int, news: int, known: dict[str, list[int]]) -> list[int]:
        """Tell the crossing lines what became certain; return their numbers."""
        other: Way = "columns" if way == "rows" else "rows"
        bit = 1 << (self.size[other] - 1 - line)
        places = [p for p in range(self.size[way]) if news >> (self.size[way] - 1 - p) & 1]
        for place in places:
            known[other][place] |= bit
        return places

    def settle(self, way: Way = "rows", lines: set[int] | None = None) -> bool:
        """Look at rows and columns in turn until nothing new turns up; False if nothing fits."""
        other: Way = "columns" if way == "rows" else "rows"
        todo = {way: set(range(len(self.left[way]))) if lines is None else lines}
        todo[other] = set(range(len(self.left[other]))) if lines is None else set()
        depth = max((look.depth for look in self.looks), default=0)
        while todo["rows"] or todo["columns"]:
            depth += 1
            for line in sorted(todo[way]):
                changed = self.look(way, line, depth)
                if changed is None:
                    return False
                todo[other].update(changed)
            todo[way] = set()
            way, other = other, way
        return True

    def tightest(self) -> tuple[Way, int] | None:
        """Return the open line with the fewest fillings left, or None if all is certain."""
        lines: list[tuple[int, Way, int]] = [
            (len(fit), way, line)
            for way in ("rows", "columns")
            for line, fit in enumerate(self.left[way])
            if len(fit) > 1
        ]
        return min(lines)[1:] if lines else None

    def grid(self) -> Grid:
        """Return the picture, once every row has one filling left."""
        size = self.size["rows"]
        signs = str.maketrans("01", ".#")
        return tuple(f"{fit[0]:0{size}b}".translate(signs) for fit in self.left["rows"])


def pictures(rows: Sequence[Runs], columns: Sequence[Runs]) -> Iterator[Found]:
    """Yield every picture whose rows and columns have these runs.

    Raises:
        GaveUp: after `MOST_NODES` trials, or where the lines have too many fillings to list.
    """
    lines = [(runs, len(columns)) for runs in rows] + [(runs, len(rows)) for runs in columns]
    if sum(count_fillings(*line) for line in lines) > MOST_FILLINGS:
        raise GaveUp(MOST_FILLINGS)
    board = _Board(rows, columns)
    if not all(board.left["rows"]) or not all(board.left["columns"]) or not board.settle():
        return
    yield from _search([board])


def _search(waiting: list[_Board]) -> Iterator[Found]:
    nodes = 0
    while waiting:
        board = waiting.pop()
        line = board.tightest()
        if line is None:
            yield Found(board.grid(), tuple(board.looks), board.guesses)
            continue
        way, index = line
        for filling in reversed(board.left[way][index]):
            nodes += 1
            if nodes > MOST_NODES:
                raise GaveUp(MOST_NODES)
            trial = board.copy()
            trial.left[way][index] = (filling,)
            if trial.settle(way, {index}):
                waiting.append(trial)
