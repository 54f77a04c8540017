"""Rows as people paste them from a spreadsheet: what they are, by their shape, and which are bad.

Cells stand between tabs, semicolons or commas. A first row with the names of a known table
says what it is; else two columns of which the second says yes or no are statements, three
or more are questions with a right answer first, and any other two are words and meanings (or
questions and answers). A bad row is told with its line and left out; the others stand.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from boxwright.content.csv_file import cell_faults
from boxwright.content.read import KNOWN
from boxwright.content.tables import TRUTHS, Table
from boxwright.frozen import frozen_value
from boxwright.problems import Problem, Where
from boxwright.text import nfc

NAME = "rows"
LARGEST = 100_000
MOST_ROWS = 500
MOSTLY = 0.6  # of the rows, so that one bad row does not make them something else
Shape = Literal["questions", "statements", "terms", "answers"]
COLUMNS: Mapping[Shape, tuple[str, ...]] = {
    "questions": ("question", "right"),
    "statements": ("statement", "true"),
    "terms": ("term", "meaning"),
    "answers": ("question", "right"),
}
HEADS = frozenset(
    {"word", "term", "meaning", "definition", "question", "answer"}
    | {"right", "wrong", "statement", "true", "fact"}
)
"""First rows of these words alone are headings, whatever order they stand in."""

Row = tuple[int, tuple[str, ...]]


@frozen_value
class Pasted:
    """What rows were recognised as: a table of the good ones, and what is wrong with the bad.

    `shape` is None where nothing could be made of them.
    """

    shape: Shape | None
    table: Table | None
    problems: tuple[Problem, ...] = ()


def recognise(text: str) -> Pasted:
    """Return what pasted rows are; never raises, whatever stands there."""
    if len(text) > LARGEST:
        return _nothing("too-long", n=len(text), most=LARGEST)
    rows = rows_of(text)
    if not rows:
        return _nothing("empty")
    if len(rows) > MOST_ROWS:
        return _nothing("too-many", n=len(rows), most=MOST_ROWS)
    head = _head(rows[0][1])
    body = rows[1:] if head is not None else rows
    named = None if head is None else next((s for s in COLUMNS if set(COLUMNS[s]) <= {*head}), None)
    if named is not None and head is not None:
        return _judged(named, _by_name(head, named, body))
    shape = _shape([cells for _, cells in body])
    return _nothing("one-column") if shape is None else _judged(shape, body)


def _nothing(code: str, **args: int) -> Pasted:
    return Pasted(None, None, (Problem.of(f"pasted.{code}", Where(NAME), edit=None, **args),))


# Cells


def rows_of(text: str) -> list[Row]:
    """Return the pasted rows that are not blank, each with the line on which it starts."""
    text = nfc(text).replace("\r\n", "\n").replace("\r", "\n")
    ways = ("\t",) if "\t" in text else (";", ",")
    cut = [_cut(text, way) for way in ways]
    return max(cut, key=_regular)


def _cut(text: str, delimiter: str) -> list[Row]:
    """Return rows, quotation marks read as programs write them where they pair, else as signs."""
    try:
        return list(_read(text, delimiter, csv.QUOTE_MINIMAL))
    except csv.Error:
        return list(_read(text, delimiter, csv.QUOTE_NONE))


def _read(text: str, delimiter: str, quoting: Literal[0, 3]) -> Iterator[Row]:
    csv.field_size_limit(LARGEST + 1)
    reader = csv.reader(
        io.StringIO(text, newline=""), delimiter=delimiter, quoting=quoting, strict=True
    )
    start = 1
    for row in reader:
        cells = [" ".join(cell.split()) for cell in row]
        while cells and not cells[-1]:
            cells.pop()
        if cells:
            yield start, tuple(cells)
        start = reader.line_num + 1


def _regular(rows: Sequence[Row]) -> int:
    """Count the rows that have the most usual number of cells, if that is two at least."""
    counts = Counter(len(cells) for _, cells in rows if len(cells) > 1)
    return max(counts.values(), default=0)


# What they are


def _head(cells: Sequence[str]) -> tuple[str, ...] | None:
    """Return the names of columns that a first row holds; None where it is a row like others."""
    names = tuple(cell.casefold() for cell in cells)
    known = any(set(need) <= set(names) for need in KNOWN.values())
    words = all(name.rstrip("0123456789 ") in HEADS for name in names)
    return names if len(names) > 1 and (known or words) else None


def _by_name(head: Sequence[str], shape: Shape, rows: Sequence[Row]) -> list[Row]:
    """Return rows with their cells in the order of the shape's own columns, wrong ones last."""
    need = COLUMNS[shape]
    wrong = [name for name in head if name.startswith("wrong")]
    wanted = [head.index(name) for name in (*need, *wrong)]
    return [
        (line, tuple(cells[at] if at < len(cells) else "" for at in wanted)) for line, cells in rows
    ]


def _shape(rows: Sequence[Sequence[str]]) -> Shape | None:
    counts = Counter(len(cells) for cells in rows if len(cells) > 1)
    if not counts:
        return None
    if counts.most_common(1)[0][0] > 2:
        return "questions"
    pairs = [cells for cells in rows if len(cells) > 1]
    if _mostly([cells[1].casefold() in TRUTHS for cells in pairs]):
        return "statements"
    return "answers" if _mostly([cells[0].endswith("?") for cells in pairs]) else "terms"


def _mostly(told: Sequence[bool]) -> bool:
    return sum(told) >= MOSTLY * len(told)


def in_columns(text: str, columns: Sequence[str]) -> list[tuple[str, ...]]:
    """Return pasted rows as cells under `columns`, for a table that is there already.

    A first row with names of columns says which is which; else cells come in their order,
    and those beyond the last column are left out.
    """
    rows = [cells for _, cells in rows_of(text[:LARGEST])[: MOST_ROWS + 1]]
    names = [cell.casefold() for cell in rows[0]] if rows else []
    by_name = bool(names) and set(names) <= set(columns)
    order = [names.index(one) if one in names else len(names) for one in columns]
    wanted = order if by_name else range(len(columns))
    return [
        tuple(cells[at] if at < len(cells) else "" for at in wanted)
        for cells in rows[1 if by_name else 0 :]
    ]


# Good rows and bad ones


def _judged(shape: Shape, rows: Sequence[Row]) -> Pasted:
    """Return a table of the good rows, and every problem of the others."""
    shape = _with_wrong_ones(shape, rows)
    good: list[Row] = []
    problems: list[Problem] = []
    seen: dict[str, int] = {}
    for line, cells in rows:
        found = tuple(_faults(shape, line, cells, seen))
        problems += found[:1]  # the first to be mended
        if not found:
            good.append((line, cells))
            seen |= dict.fromkeys(_once(shape, cells), line)
    if not good:
        return Pasted(shape, None, tuple(problems) or _nothing("empty").problems)
    return Pasted(shape, _table(shape, good), tuple(problems))


def _with_wrong_ones(shape: Shape, rows: Sequence[Row]) -> Shape:
    """Return `answers` for questions of which none has a wrong answer."""
    none = not any(any(cells[2:]) for _, cells in rows)
    return "answers" if shape == "questions" and none else shape


def _faults(
    shape: Shape, line: int, cells: Sequence[str], seen: Mapping[str, int]
) -> Iterator[Problem]:
    where, need = Where(NAME, (line,), line), 3 if shape == "questions" else 2
    for column, cell in zip(COLUMNS[shape], cells, strict=False):
        yield from cell_faults(where, column, cell)
    if len([cell for cell in cells if cell]) < need or not all(cells[:2]):
        yield Problem.of(f"pasted.short-{shape}", where, text=" · ".join(filter(None, cells)))
    elif shape != "questions" and len(cells) > need and any(cells[need:]):
        yield Problem.of("pasted.long-row", where, n=len(cells), text=cells[need])
    elif shape == "statements" and cells[1].casefold() not in TRUTHS:
        yield Problem.of("pasted.no-truth", where, found=cells[1], statement=cells[0])
    elif (again := next((one for one in _once(shape, cells) if one in seen), None)) is not None:
        yield Problem.of("pasted.twice", where, text=again, line=seen[again])
    elif shape == "questions":
        yield from _alike(where, [_same(cell) for cell in cells[1:] if cell], cells)


def _alike(where: Where, options: Sequence[str], cells: Sequence[str]) -> Iterator[Problem]:
    """Yield the problem that two answers to a question read alike."""
    twice = next((at for at, one in enumerate(options) if one in options[:at]), None)
    if twice is not None:
        told = [cell for cell in cells[1:] if cell][twice]
        code = "wrong-is-right" if options[twice] == options[0] else "wrong-twice"
        yield Problem.of(f"pasted.{code}", where, option=told)


def _once(shape: Shape, cells: Sequence[str]) -> tuple[str, ...]:
    """Return what may stand once only: two words of one meaning would both be right."""
    return tuple(_same(cell) for cell in cells[: 2 if shape == "terms" else 1])


def _same(text: str) -> str:
    return text.casefold().strip(" .!?")


def _table(shape: Shape, rows: Sequence[Row]) -> Table:
    most = max(len(cells) for _, cells in rows)
    wrong = tuple(f"wrong{at}" for at in range(1, most - 1)) if shape == "questions" else ()
    columns = (*COLUMNS[shape], *wrong)
    filled = tuple(
        {name: cells[at] if at < len(cells) else "" for at, name in enumerate(columns)}
        for _, cells in rows
    )
    return Table(NAME, columns, filled, tuple(line for line, _ in rows))
