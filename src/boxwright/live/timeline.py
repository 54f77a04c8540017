"""What each table did, as marks along the clock; drawn on a page and on paper alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Literal, get_args

from boxwright.live.noted import State
from boxwright.live.report import Line, Report
from boxwright.problems import Message
from boxwright.text import minute_figures

Sort = Literal["opened", "found", "hint", "wrong", "mishap", "note", "won"]
SORTS: tuple[Sort, ...] = get_args(Sort)
MINUTE_S = 60

_SORT_OF: Mapping[str, Sort] = {
    "lock.opened": "opened",
    "item.found": "found",
    "hint.given": "hint",
    "mishap.noted": "mishap",
    "note.made": "note",
}


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing that was done, at a second of the game's clock."""

    second: int
    sort: Sort
    says: Message


@dataclass(frozen=True, slots=True)
class Row:
    """One table's marks in time, and the second at which it had what wins, if it had."""

    name: str
    marks: tuple[Mark, ...]
    won_s: int | None


@dataclass(frozen=True, slots=True)
class Timeline:
    """All tables over the same minutes, in the order in which they joined: nobody is ranked."""

    rows: tuple[Row, ...]
    length_s: int

    @property
    def figures(self) -> tuple[int, ...]:
        """The minutes that are written under the lines."""
        return minute_figures(self.length_s // MINUTE_S)

    @property
    def sorts(self) -> tuple[Sort, ...]:
        """The sorts of marks that there are, for a legend."""
        there: set[Sort] = {mark.sort for row in self.rows for mark in row.marks}
        if any(row.won_s is not None for row in self.rows):
            there.add("won")
        return tuple(sort for sort in SORTS if sort in there)

    def share(self, second: int) -> float:
        """Return where a second stands, from 0 to 1."""
        return min(max(second / self.length_s, 0.0), 1.0)


def timeline(state: State, whole: Report) -> Timeline:
    """Return a session's report, drawn over the time that it took or was planned for."""
    rows = tuple(Row(one.name, tuple(_marks(one.lines)), one.won_s) for one in whole.tables)
    last = max((mark.second for row in rows for mark in row.marks), default=0)
    planned = state.clock.total_s
    played = state.clock.length_ms // 1000
    length = max(last, played, MINUTE_S) if state.clock.status == "ended" else max(last, planned)
    return Timeline(rows, ceil(length / MINUTE_S) * MINUTE_S)


def _marks(lines: tuple[Line, ...]) -> Iterator[Mark]:
    for line in lines:
        sort = _sort(line)
        if sort is not None:
            yield Mark(line.second, sort, line.says)


def _sort(line: Line) -> Sort | None:
    """Return how a line is drawn; None for what tells nothing of its own."""
    if line.what == "code.tried":
        return None if line.number else "wrong"
    return _SORT_OF.get(line.what)
