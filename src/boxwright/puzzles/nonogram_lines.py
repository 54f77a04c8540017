"""Line logic for the maker: what must be dark or light in one line, by arithmetic on bits.

A line is a whole number, bit 0 its first cell. The runs are followed from both ends as
a non-deterministic automaton whose states are sets of cells; each step is a shift or a
flood, so that a line costs a few microseconds. Exact: a cell stays open only if some
filling that keeps the runs has it dark and some other has it light. `solve` has its own
logic (`nonogram_solver`), so that a fault here cannot hide itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

Runs = tuple[int, ...]


class Settled(NamedTuple):
    """How far line logic alone gets: dark and open cells by row.

    `looks` counts the looks at a line that told something, `passes` the rounds they took.
    """

    dark: list[int]
    open: list[int]
    looks: int
    passes: int


def runs_of(line: int) -> Runs:
    """Return the lengths of the runs of ones, from bit 0 on; `(0,)` where there is none."""
    found = []
    while line:
        line >>= (line & -line).bit_length() - 1
        length = (~line & (line + 1)).bit_length() - 1
        found.append(length)
        line >>= length
    return tuple(found) or (0,)


def _flood_up(seeds: int, ground: int) -> int:
    """Return the cells of `ground` from each seed (in it) on, without a gap: one carry."""
    return (((ground + seeds) ^ ground) | seeds) & ground


def _flood_down(seeds: int, ground: int) -> int:
    """Return the cells of `ground` down from each seed, without a gap, doubling the reach."""
    reach = 1
    while ground and reach < 32:
        seeds |= (seeds >> reach) & ground
        ground &= ground >> reach
        reach *= 2
    return seeds


def _all_of(cells: int, length: int) -> int:
    """Return where `length` cells in a row, this one first, all lie in `cells`."""
    have = 1
    while have < length:
        step = min(have, length - have)
        cells &= cells >> step
        have += step
    return cells


def _any_of(starts: int, length: int) -> int:
    """Return the cells that runs of `length` from any of `starts` cover."""
    have = 1
    while have < length:
        step = min(have, length - have)
        starts |= starts << step
        have += step
    return starts


@lru_cache(maxsize=1 << 16)
def settle(runs: Runs, size: int, dark: int, light: int) -> tuple[int, int] | None:
    """Return (dark, light) as far as `runs` force them, or None where nothing fits.

    Cell 0 and cell `size + 1` are added in thought, both light, so that every run has a
    light cell before it and one after.
    """
    wanted = () if runs == (0,) else runs
    edge = 1 | 1 << (size + 1)
    whole = (1 << (size + 2)) - 1
    free = whole & ~(dark << 1)
    solid = whole & ~(light << 1 | edge)
    fits = [_all_of(solid, run) for run in wanted]
    gaps = [_flood_up(1, free)]
    starts = []
    for run, fit in zip(wanted, fits, strict=True):
        start = gaps[-1] << 1 & fit
        starts.append(start)
        gaps.append(_flood_up(start << run & free, free))
    after = _flood_down(1 << (size + 1), free)
    can_light = gaps[-1] & after
    if not can_light:
        return None
    can_dark = 0
    for index in range(len(wanted) - 1, -1, -1):
        run = wanted[index]
        start = fits[index] & after >> run & starts[index]
        can_dark |= _any_of(start, run)
        after = _flood_down(start >> 1 & free, free)
        can_light |= gaps[index] & after
    inside = whole & ~edge
    return (inside & ~can_light) >> 1, (inside & ~can_dark) >> 1


def columns_of(rows: Sequence[int], width: int) -> list[int]:
    """Return the columns of a picture given by rows."""
    columns = [0] * width
    for y, row in enumerate(rows):
        left = row
        while left:
            low = left & -left
            columns[low.bit_length() - 1] |= 1 << y
            left ^= low
    return columns


class _Board:
    """What is known of a picture, held by rows and by columns at once."""

    def __init__(self, across: Sequence[Runs], down: Sequence[Runs]) -> None:
        self.runs = (across, down)
        self.size = (len(down), len(across))
        self.dark = ([0] * len(across), [0] * len(down))
        self.light = ([0] * len(across), [0] * len(down))
        self.looks = 0

    def look(self, way: int, lines: set[int]) -> set[int]:
        """Settle `lines` (way 0: rows, 1: columns); return the crossing lines that changed."""
        changed: set[int] = set()
        runs, size = self.runs[way], self.size[way]
        dark, light, whole = self.dark[way], self.light[way], (1 << size) - 1
        for line in sorted(lines):
            if dark[line] | light[line] == whole:
                continue  # its crossing lines have settled it
            found = settle(runs[line], size, dark[line], light[line])
            assert found is not None, "runs taken from a picture fit that picture"
            if found != (dark[line], light[line]):
                self._cross(self.dark[1 - way], found[0] & ~dark[line], line, changed)
                self._cross(self.light[1 - way], found[1] & ~light[line], line, changed)
                self.looks += 1
                dark[line], light[line] = found
        return changed

    @staticmethod
    def _cross(others: list[int], news: int, line: int, changed: set[int]) -> None:
        bit = 1 << line
        while news:
            low = news & -news
            other = low.bit_length() - 1
            others[other] |= bit
            changed.add(other)
            news ^= low


def settle_picture(across: Sequence[Runs], down: Sequence[Runs]) -> Settled:
    """Take line logic as far as it goes, rows and columns in turn.

    `across` are the runs of the rows, `down` those of the columns, taken from one picture.
    """
    board = _Board(across, down)
    todo = [set(range(len(across))), set(range(len(down)))]
    passes = way = 0
    while todo[0] or todo[1]:
        before = board.looks
        changed = board.look(way, todo[way])
        passes += board.looks > before
        todo[way] = set()
        todo[1 - way] |= changed
        way = 1 - way
    full = (1 << len(down)) - 1
    dark, light = board.dark[0], board.light[0]
    left = [full & ~(d | w) for d, w in zip(dark, light, strict=True)]
    return Settled(dark, left, board.looks, passes)
