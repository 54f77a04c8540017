"""The teacher's questions: read from the table, what is wrong with them, and their room.

Room is counted in lines of the largest print on the smaller paper (18 pt on US Letter, the
questions set at 0.85 of it), so that a sheet fits whatever it is printed at. It is an
estimate on the safe side, from the number of signs; the finished page is measured again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from math import ceil

from boxwright.content.tables import Table
from boxwright.frozen import frozen_value
from boxwright.game.model import LEVELS
from boxwright.problems import Problem, Where
from boxwright.text import nfc

LINE = 52  # signs in a line of a question
LABEL = 6  # signs that a label and the gap after an option are as wide as
OPTIONS = 1.4  # lines that a row of options takes, for labels stand in circles
GAP = 0.6  # lines between two questions
PAGE = 22.5  # lines that all questions of a sheet may take
MOST_CHOICES = 6
# Options that speak of others by their place, which is drawn anew for every sheet.
BY_PLACE = re.compile(
    r"\b(all|any|both|each|either|neither|none|one|two) of the (above|below|previous)\b"
    r"|\b(both|either|neither) [a-f1-6] (and|or|nor) [a-f1-6]\b"
    r"|\b(options?|answers?) [a-f1-6] (and|or|nor) [a-f1-6]\b"
    r"|^[a-f] (and|or) [a-f]$",
    re.IGNORECASE,
)


@frozen_value
class Row:
    """One question with its right option and its wrong ones; `level` "" is for every level."""

    question: str
    right: str
    wrong: tuple[str, ...]
    level: str

    def lines(self, choices: int) -> float:
        """Return the lines that the question takes with so many options."""
        widest = max(map(len, (self.right, *self.wrong))) + LABEL
        abreast = next((n for n in fold(choices) if n * widest <= LINE), 1)
        each = ceil(widest / LINE) if abreast == 1 else 1
        return ceil(len(self.question) / LINE) + OPTIONS * each * ceil(choices / abreast) + GAP


def fold(choices: int) -> tuple[int, ...]:
    """Return in how many columns options may stand, the most first."""
    return tuple(sorted({choices, ceil(choices / 2), min(2, choices), 1}, reverse=True))


def wrong_columns(table: Table) -> tuple[str, ...]:
    """Return the columns of wrong options, in the order of the file."""
    return tuple(column for column in table.columns if column.startswith("wrong"))


def rows_of(table: Table) -> tuple[Row, ...]:
    """Return the questions of a table without faults."""
    columns = wrong_columns(table)
    return tuple(
        Row(
            row["question"],
            row["right"],
            tuple(row[column] for column in columns if row[column]),
            row.get("level", "").strip().lower(),
        )
        for row in table.rows
    )


def faults(table: Table) -> Iterator[Problem]:
    """Yield what is wrong with the rows, each with its line."""
    columns = wrong_columns(table)
    asked: dict[str, int] = {}
    for line, row in zip(_lines(table), table.rows, strict=True):
        where = Where(table.file, (line,), line)
        yield from _empty(where, row, columns)
        yield from _alike(where, [row["right"], *(row[column] for column in columns)])
        level = row.get("level", "").strip().lower()
        if level and level not in LEVELS:
            yield Problem.of("quiz-index.level", where, found=level, choices=tuple(LEVELS))
        question = same(row["question"])
        if question in asked:
            yield Problem.of(
                "quiz-index.question-twice", where, question=row["question"], line=asked[question]
            )
        asked.setdefault(question, line)


def _lines(table: Table) -> Sequence[int]:
    return table.lines or range(2, len(table.rows) + 2)


def _empty(where: Where, row: Mapping[str, str], columns: tuple[str, ...]) -> Iterator[Problem]:
    for column in ("question", "right"):
        if not row.get(column):
            yield Problem.of("quiz-index.empty", where, column=column)
    if not any(row.get(column) for column in columns):
        yield Problem.of("quiz-index.no-wrong", where)


def _alike(where: Where, options: Sequence[str]) -> Iterator[Problem]:
    """Yield options that pupils could not tell apart, and those that lean on their place."""
    seen: dict[str, int] = {}
    for place, option in enumerate(options):
        alike = seen.setdefault(same(option), place)
        if option and alike < place:
            code = "quiz-index.wrong-is-right" if alike == 0 else "quiz-index.wrong-twice"
            yield Problem.of(code, where, option=option)
        if BY_PLACE.search(option):
            yield Problem.of("quiz-index.by-place", where, option=option)


def same(text: str) -> str:
    """Return `text` so that two that read alike are equal: case, blanks and full stops aside."""
    return " ".join(nfc(text).casefold().split()).strip(" .!?")
