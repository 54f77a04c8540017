"""The teacher's tables as values: rows of text under named columns."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from boxwright.frozen import frozen_value
from boxwright.problems import Problem

TRUTHS: Mapping[str, bool] = {
    **dict.fromkeys(("yes", "y", "true", "t", "right", "1"), True),
    **dict.fromkeys(("no", "n", "false", "f", "wrong", "0"), False),
}
"""What may stand in a column of statements that are true or not."""


@frozen_value
class Table:
    """One table; each row maps its columns to text. `lines` is the file's line of each row."""

    file: str
    columns: tuple[str, ...]
    rows: tuple[Mapping[str, str], ...]
    lines: tuple[int, ...] = ()


@frozen_value
class Content:
    """What one clue may draw on: tables by what they are (questions, terms, …)."""

    tables: Mapping[str, Table] = field(default_factory=dict)


@frozen_value
class Grid:
    """A table as it lies in its file: every row with the line on which it starts, and each fault.

    `cells` of a row may be fewer than there are columns, or more.
    """

    file: str
    columns: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    problems: tuple[Problem, ...] = ()
