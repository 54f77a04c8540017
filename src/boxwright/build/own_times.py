"""A teacher's own table of how long clues took: a CSV file, a row for each clue of each group.

Its columns are `group`, `clue` and `minutes`; `hints` and `class` may be there. Without a class
all groups are of one. Minutes with a `>` before them: so long, and then it was not done. When
hints were given is not asked: they count as spread evenly.

A group named as one of the printed set has that group's versions of the clues, others those of
the first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from boxwright.build.forecasting import expected_of, subjects_of
from boxwright.choose.edition import Edition
from boxwright.content.csv_file import lacks_column, read_table
from boxwright.content.tables import Table
from boxwright.forecast.parameters import Parameters
from boxwright.game.hinting import LINES
from boxwright.problems import Problem, Refused, Where
from boxwright.text import nearest

if TYPE_CHECKING:
    from boxwright.forecast.learning import Observation, Subject

NEEDED = ("group", "clue", "minutes")
MORE = ("hints", "class")
TIMES = "times"
MOST_MINUTES = 600
OPEN = ">"
Row = Mapping[str, str]


def read_times(
    file: Path, editions: Sequence[Edition], parameters: Parameters
) -> tuple[Observation, ...]:
    """Return what a table tells of the clues of a printed set.

    Raises Refused with every row that is wrong.
    """
    table = read_table(file, str(file))
    if not isinstance(table, Table):
        raise Refused(table)
    if problems := tuple(_head_faults(table)):
        raise Refused(problems)
    of_group = {group: edition for edition in editions for group in edition.groups}
    of_row = [of_group.get(row["group"], editions[0]) for row in table.rows]
    if problems := tuple(_faults(table, of_row)):
        raise Refused(problems)
    expected = {edition.id: expected_of(edition, parameters) for edition in editions}
    subjects = {edition.id: subjects_of(edition) for edition in editions}
    return tuple(
        _observation(row, subjects[edition.id][clue], expected[edition.id][clue])
        for row, edition in zip(table.rows, of_row, strict=True)
        if (clue := row["clue"]) in expected[edition.id]
    )


def _observation(row: Row, subject: Subject, expected: float) -> Observation:
    from boxwright.forecast.learning import Observation

    minutes, count = _minutes(row) or 0.0, _hints(row) or 0
    hints = tuple(minutes * at / (count + 1) for at in range(1, count + 1))
    session, done = row.get("class", ""), not _is_open(row)
    return Observation(subject, session, row["group"], minutes, expected, hints, done)


def _head_faults(table: Table) -> Iterator[Problem]:
    where = Where(table.file, (), 1)
    for column in NEEDED:
        if column not in table.columns:
            yield lacks_column(where, TIMES, table, column, NEEDED, MORE)


def _faults(table: Table, editions: Sequence[Edition]) -> Iterator[Problem]:
    """Yield what is wrong with rows, each of which is of the edition beside it."""
    seen = dict[tuple[str, ...], int]()
    if not table.rows:
        yield Problem.of("learn.empty", Where(table.file, (), 1))
    for line, row, edition in zip(table.lines, table.rows, editions, strict=True):
        yield from _row_faults(table.file, line, row, tuple(edition.game.clues))
        about = (row.get("class", ""), row["group"], row["clue"])
        first = seen.setdefault(about, line)
        if first != line and all(about[1:]):
            where = Where(table.file, (line, "clue"), line)
            yield Problem.of("learn.twice", where, group=about[1], clue=about[2], line=first)


def _row_faults(file: str, line: int, row: Row, known: tuple[str, ...]) -> Iterator[Problem]:
    def at(column: str) -> Where:
        return Where(file, (line, column), line)

    if not row["group"]:
        yield Problem.of("learn.no-group", at("group"))
    clue = row["clue"]
    if clue not in known:
        near = nearest(clue, known)
        code = "learn.no-clue" if near is None else "learn.no-clue-but"
        yield Problem.of(code, at("clue"), found=clue, near=near or "", choices=known)
    minutes = _minutes(row)
    if minutes is None or not 0 < minutes <= MOST_MINUTES:
        yield Problem.of("learn.minutes", at("minutes"), found=row["minutes"], most=MOST_MINUTES)
    hints = _hints(row)
    if hints is None or hints > LINES:
        yield Problem.of("learn.hints", at("hints"), found=row["hints"], most=LINES)


def _minutes(row: Row) -> float | None:
    """Return the minutes of a row, with a point or a comma; None where it is no number."""
    try:
        return float(row["minutes"].removeprefix(OPEN).replace(",", "."))
    except ValueError:
        return None


def _is_open(row: Row) -> bool:
    """Tell whether the clue was not done after so many minutes."""
    return row["minutes"].startswith(OPEN)


def _hints(row: Row) -> int | None:
    """Return how many hints a row tells; None where it is no count."""
    text = row.get("hints", "") or "0"
    return int(text) if text.isascii() and text.isdecimal() else None
