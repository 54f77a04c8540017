"""A few rows of a lesson as what sheets draw on: pasted ones, or small tables of our own.

Words with their meanings, and questions with their answers, become questions with wrong
options: the words, or answers, of other rows. That none of those fits too rests on whoever
wrote the rows.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path as File

from boxwright.content.pasted import Pasted, recognise
from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.messages import words
from boxwright.problems import say

OURS = File(__file__).parent / "ours"
MOST_WRONG = 5
KEPT = ("goal", "level")
ALSO: Mapping[str, tuple[str, ...]] = {"questions": ("terms",)}
"""Tables that serve where another is wanted."""


def our_tables() -> tuple[str, ...]:
    """Return the names of the tables that we bring along."""
    return tuple(sorted(file.stem for file in OURS.glob("*.csv")))


def our_table(name: str) -> Pasted:
    """Return one of the tables that we bring along."""
    return recognise((OURS / f"{name}.csv").read_text("utf-8"))


def content_from(pasted: Pasted, language: str = "en") -> Content:
    """Return what sheets can draw on; nothing where no row is good."""
    if pasted.shape is None or pasted.table is None:
        return Content()
    if pasted.shape == "answers":
        return Content({"questions": with_wrong_ones(pasted.table, language)})
    return asked_of(Content({pasted.shape: pasted.table}), language)


def asked_of(content: Content, language: str = "en") -> Content:
    """Return the content with its words asked for as questions too, where it has no others."""
    terms = content.tables.get("terms")
    if terms is None or "questions" in content.tables:
        return content
    return Content({**content.tables, "questions": with_wrong_ones(terms, language)})


def with_wrong_ones(table: Table, language: str = "en") -> Table:
    """Return pairs as questions whose wrong options are the right ones of other rows."""
    asked = [_asked(row, language) for row in table.rows]
    columns = tuple(f"wrong{at}" for at in range(1, MOST_WRONG + 1))
    rows = []
    for at, (question, right) in enumerate(asked):
        others = {one.casefold(): one for _, one in asked if one.casefold() != right.casefold()}
        dice = Dice(f"{at} {question}")
        drawn = dice.sample(list(others.values()), min(MOST_WRONG, len(others)))
        wrong = dict(zip(columns, (*drawn, *[""] * (MOST_WRONG - len(drawn))), strict=True))
        rows.append({"question": question, "right": right} | wrong | _kept(table.rows[at]))
    kept = tuple(column for column in KEPT if column in table.columns)
    return Table(table.file, ("question", "right", *columns, *kept), tuple(rows), table.lines)


def _kept(row: Mapping[str, str]) -> dict[str, str]:
    return {column: row[column] for column in KEPT if column in row}


def _asked(row: Mapping[str, str], language: str) -> tuple[str, str]:
    """Return the question and the right answer of one row."""
    if "meaning" not in row:
        return row["question"], row["right"]
    return words(say("pasted.which-word", meaning=row["meaning"]), language), row["term"]
