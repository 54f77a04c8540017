"""A table from a CSV file as teachers' programs write it (RFC 4180, with more patience).

UTF-8 with or without a byte order mark, commas or semicolons, any line ends. Cells keep
their text as it is (markup and formulas are text), with blanks around it dropped.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path as File

from boxwright.content.tables import Grid, Table
from boxwright.game.csv_form import LARGEST, delimiter
from boxwright.game.signs import control_sign
from boxwright.game.toml_file import decoded, read_bytes
from boxwright.problems import Problem, Where
from boxwright.text import nearest, nfc

MOST_ROWS = 5_000
LONGEST_CELL = 4_000
Row = tuple[int, list[str]]


def read_table(path: File, name: str) -> Table | tuple[Problem, ...]:
    """Return the table in `path`, which people know as `name`, or all that is wrong with it."""
    grid = read_grid(path, name)
    if not isinstance(grid, Grid):
        return grid
    return grid.problems or _table(grid)


def lacks_column(
    where: Where,
    name: str,
    table: Table,
    column: str,
    need: Sequence[str],
    more: Sequence[str] = (),
) -> Problem:
    """Return the problem that a table of a sort, `name`, lacks a column of those that it needs.

    A column that is neither needed nor one of `more` may be the one meant.
    """
    near = nearest(column, [one for one in table.columns if one not in (*need, *more)])
    code = "content.no-column" if near is None else "content.no-column-but"
    return Problem.of(
        code,
        where,
        column=column,
        table=name,
        found=table.columns,
        need=tuple(need),
        near=near or "",
    )


def read_grid(path: File, name: str) -> Grid | tuple[Problem, ...]:
    """Return what stands in `path` row by row, sound or not; why, where it cannot be told."""
    raw = read_bytes(path, name, LARGEST)
    text = raw if isinstance(raw, Problem) else decoded(raw, name)
    if isinstance(text, Problem):
        return (text,)
    rows = _rows(text.replace("\r", "\n"), name)
    if isinstance(rows, Problem):
        return (rows,)
    if not rows:
        return (Problem.of("content.empty", Where(name, (), 1), name=name),)
    columns = [nfc(cell).strip().lower() for cell in rows[0][1]]
    while columns and not columns[-1]:
        columns.pop()
    problems = (*_head_faults(name, rows[0][0], columns), *_row_faults(name, columns, rows[1:]))
    body = tuple((line, tuple(cells)) for line, cells in rows[1:])
    return Grid(name, tuple(columns), body, problems)


def _rows(text: str, name: str) -> list[Row] | Problem:
    """Return the rows that are not blank, each with the line on which it starts."""
    csv.field_size_limit(LARGEST)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter(text), strict=True)
    rows: list[Row] = []
    start = 1
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                rows.append((start, [cell.strip() for cell in row]))
            start = reader.line_num + 1
    except csv.Error:
        return Problem.of("content.quotes", Where(name, (), start), line=start)
    return rows


def _head_faults(name: str, line: int, columns: Sequence[str]) -> Iterator[Problem]:
    where = Where(name, (), line)
    if "\t" in "".join(columns):
        yield Problem.of("content.tabs", where, name=name)
    for number, column in enumerate(columns, start=1):
        if not column:
            yield Problem.of("content.nameless-column", where, number=number)
        elif column in columns[: number - 1]:
            yield Problem.of("content.column-twice", where, column=column)


def _row_faults(name: str, columns: Sequence[str], rows: Sequence[Row]) -> Iterator[Problem]:
    if len(rows) > MOST_ROWS:
        where = Where(name, (), rows[MOST_ROWS][0])
        yield Problem.of("content.too-many-rows", where, n=len(rows), most=MOST_ROWS)
    all_longer = len(rows) > 1 and all(any(cells[len(columns) :]) for _, cells in rows)
    if all_longer:
        found = min(len(cells) for _, cells in rows)
        where = Where(name, (), 1)
        yield Problem.of("content.few-names", where, found=found, columns=len(columns))
    for line, cells in rows[:MOST_ROWS]:
        where = Where(name, (line,), line)
        if any(cells[len(columns) :]) and not all_longer:
            found = len(cells)
            yield Problem.of("content.long-row", where, found=found, columns=len(columns))
        for column, cell in zip(columns, cells, strict=False):
            yield from cell_faults(Where(name, (line, column), line), column, cell)


def cell_faults(where: Where, column: str, cell: str) -> Iterator[Problem]:
    """Yield what no cell may hold: a sign that cannot be seen, or far too much text."""
    sign = control_sign(cell)
    if sign is not None:
        yield Problem.of("content.control-sign", where, column=column, sign=sign)
    if len(cell) > LONGEST_CELL:
        yield Problem.of("content.long-cell", where, column=column, n=len(cell), most=LONGEST_CELL)


def _table(grid: Grid) -> Table:
    filled = tuple(
        {column: cells[at] if at < len(cells) else "" for at, column in enumerate(grid.columns)}
        for _, cells in grid.rows
    )
    return Table(grid.file, grid.columns, filled, tuple(line for line, _ in grid.rows))
