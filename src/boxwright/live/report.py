"""What each table did along the clock, as data and as a file for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedGame
from boxwright.live.events import Event
from boxwright.live.folding import moment
from boxwright.live.noted import Group, State
from boxwright.live.table import table_of
from boxwright.live.telling import told
from boxwright.messages import SOURCE_LANGUAGE, words
from boxwright.problems import Message, say

COLUMNS = ("table", "second", "what", "thing", "number", "words")
THINGS = ("lock", "clue", "item", "thing", "outcome")
"""Names of what an event is about, in its data."""
LEFT_OUT = frozenset({"step.ticked"})
"""Types that tell nothing of the game."""
RISKY = ("=", "+", "-", "@")
"""What a cell begins with that a spreadsheet takes for a formula."""

Cell = str | int | float


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that was done, at a second of the game's clock; `what` is its event's type.

    `number` is a hint's line; for a code that was tried 1 if it was right, else 0.
    """

    second: int
    what: str
    thing: str
    says: Message
    number: int | None = None


@dataclass(frozen=True, slots=True)
class TableReport:
    """One group's game: its lines in time, minutes for each clue that was solved, sums.

    `won_s` is the second at which it had what wins the game.
    """

    group: str
    name: str
    lines: tuple[Line, ...]
    minutes: Mapping[str, float]
    hints: int
    wrong: int
    won_s: int | None


@dataclass(frozen=True, slots=True)
class Report:
    """A session: each table, and what was done or noted for all."""

    tables: tuple[TableReport, ...]
    all: tuple[Line, ...]


def report(state: State, editions: Mapping[str, Edition]) -> Report:
    """Return what happened in a session that is played with `editions`, by group."""
    tables = tuple(
        _table(state, group, editions[id]) for id, group in state.groups.items() if id in editions
    )
    return Report(tables, _lines(state, None))


def _table(state: State, group: Group, edition: Edition) -> TableReport:
    table = table_of(group, edition)
    worked = {id: clue.worked_ms for id, clue in table.clues.items()}
    return TableReport(
        group=group.id,
        name=group.name,
        lines=_lines(state, group.id, edition.game),
        minutes={id: round(ms / 60_000, 1) for id, ms in worked.items() if ms is not None},
        hints=len(group.hints),
        wrong=group.wrong,
        won_s=None if table.won_ms is None else table.won_ms // 1000,
    )


def _lines(state: State, group: str | None, game: ArrangedGame | None = None) -> tuple[Line, ...]:
    """Return what one group did, or what was done for all, in time; undone things are not there."""
    lines = (
        _line(state, event, game)
        for event in state.undo
        if event.data.get("group") == group and event.type not in LEFT_OUT
    )
    return tuple(sorted(lines, key=lambda line: line.second))


def _line(state: State, event: Event, game: ArrangedGame | None) -> Line:
    thing = next((event.data[name] for name in THINGS if name in event.data), "")
    number = event.data.get("line", event.data.get("right"))
    return Line(
        second=state.clock.played_s(moment(event)),
        what=event.type,
        thing=thing,
        says=told(event, state, game),
        number=None if number is None else int(number),
    )


def as_csv(state: State, editions: Mapping[str, Edition], language: str = SOURCE_LANGUAGE) -> str:
    """Return the report as CSV (RFC 4180), in words of `language`; no cell runs as a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(words(say(f"live.column-{name}"), language) for name in COLUMNS)
    for row in _rows(report(state, editions), language):
        writer.writerow(map(_harmless, row))
    return out.getvalue()


def _rows(whole: Report, language: str) -> Iterator[tuple[Cell, ...]]:
    for table in whole.tables:
        yield from _told(table.name, table.lines, language)
        for clue, minutes in table.minutes.items():
            yield _sum(table.name, "minutes", clue, minutes, language)
        yield _sum(table.name, "hints", "", table.hints, language)
        yield _sum(table.name, "wrong", "", table.wrong, language)
    everyone = words(say("live.all"), language)
    yield from _told(everyone, whole.all, language)


def _told(name: str, lines: tuple[Line, ...], language: str) -> Iterator[tuple[Cell, ...]]:
    for one in lines:
        number = "" if one.number is None else one.number
        yield name, one.second, one.what, one.thing, number, words(one.says, language)


def _sum(name: str, what: str, thing: str, number: Cell, language: str) -> tuple[Cell, ...]:
    return name, "", what, thing, number, words(say(f"live.sum-{what}"), language)


def _harmless(cell: Cell) -> Cell:
    """Return a cell that a spreadsheet takes as it is, and never for a formula."""
    risky = isinstance(cell, str) and cell.lstrip().startswith(RISKY)
    return f"'{cell}" if risky else cell
