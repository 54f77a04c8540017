"""The teacher's statements: read from the table, what is wrong with them, and their room.

Room is that of the largest print on the smaller paper (18 pt on US Letter, the list set at
0.85 of it), so that a sheet fits whatever it is printed at. Widths are estimates on the
safe side, letter by letter; the finished page is measured again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from unicodedata import combining, normalize

from boxwright.content.tables import TRUTHS, Table
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import LEVELS, Level
from boxwright.problems import Problem, Where
from boxwright.text import nfc

FEWEST = 3  # statements of either sort; with fewer, one slip would spoil a figure
MOST = 30
NARROW, BROAD = frozenset("iljtfrI.,;:!|'’“”()[]/ -"), frozenset("mwMWOQ@%&")
COLUMN_ROOM = {1: 29.0, 2: 12.4, 3: 6.9, 4: 4.1}
"""Widths of a statement (in its own text sizes) that have room in so many columns."""


@frozen_value
class Row:
    """One statement, and whether it fits the rule; `level` "" is for every level."""

    statement: str
    fits: bool
    level: str

    def suits(self, level: Level) -> bool:
        """Tell whether the row is meant for `level`."""
        return self.level in ("", level)


def width(text: str) -> float:
    """Return about how wide a text is, in text sizes; accents over a letter take no room."""
    return sum(_width_of(sign) for sign in normalize("NFD", text) if not combining(sign))


def _width_of(sign: str) -> float:
    if sign in NARROW:
        return 0.4
    if sign in BROAD or not sign.isascii():
        return 1.1
    return 0.73 if sign.isupper() else 0.63


def same(text: str) -> str:
    """Return `text` so that two that read alike are equal: case, blanks and full stops aside."""
    return " ".join(nfc(text).casefold().split()).strip(" .!?")


def rows_of(table: Table) -> tuple[Row, ...]:
    """Return the statements of a table without faults."""
    return tuple(
        Row(
            " ".join(row["statement"].split()),
            TRUTHS[row["true"].strip().casefold()],
            row.get("level", "").strip().lower(),
        )
        for row in table.rows
    )


def faults(table: Table) -> Iterator[Problem]:
    """Yield what is wrong with the rows, each with its line; then, that they are too few."""
    seen: dict[str, tuple[int, str]] = {}
    before = False
    for line, row in zip(table.lines or range(2, len(table.rows) + 2), table.rows, strict=True):
        text, truth = row["statement"].strip(), row["true"].strip().casefold()
        for problem in _row_faults(Where(table.file, (line,), line), row, seen):
            yield problem
            before = True
        seen.setdefault(same(text), (line, truth))
    if not before:
        yield from _too_few(table)


def _row_faults(
    where: Where, row: Mapping[str, str], seen: dict[str, tuple[int, str]]
) -> Iterator[Problem]:
    text, truth = row["statement"].strip(), row["true"].strip().casefold()
    if not text or not truth:
        column = "true" if text else "statement"
        yield Problem.of("shade-by-rule.empty", where, column=column)
        return
    if truth not in TRUTHS:
        yield Problem.of("shade-by-rule.truth", where, found=row["true"], statement=text)
    if width(text) > COLUMN_ROOM[1]:
        most = int(len(text) * COLUMN_ROOM[1] / width(text))
        yield Problem.of("shade-by-rule.long", where, statement=text, n=len(text), most=most)
    level = row.get("level", "").strip().lower()
    if level and level not in LEVELS:
        yield Problem.of("shade-by-rule.level", where, found=level, choices=tuple(LEVELS))
    if same(text) in seen:
        line, other = seen[same(text)]
        agrees = TRUTHS.get(other) == TRUTHS.get(truth)
        code = "shade-by-rule.twice" if agrees else "shade-by-rule.contradicts"
        yield Problem.of(code, where, statement=text, line=line)


def _too_few(table: Table) -> Iterator[Problem]:
    rows = rows_of(table)
    true = sum(row.fits for row in rows)
    if min(true, len(rows) - true) < FEWEST:
        yield Problem.of(
            "shade-by-rule.too-few",
            Where(table.file, ()),
            true=true,
            false=len(rows) - true,
            least=FEWEST,
        )


def drawn_rows(
    rows: Sequence[Row], wanted: int, lines: int, level: Level, dice: Dice
) -> tuple[Row, ...]:
    """Return statements of both sorts, in the order of the list to be printed.

    Args:
        rows: all rows; those of another level are drawn only where they are needed.
        wanted: how many there should be.
        lines: how many lines of the list have room on the page.
        level: how hard the sheet is to be.
        dice: the chance of this draw.
    """
    shuffled = dice.shuffled(rows)
    choices = [
        _balanced(_usable(shuffled, room, level), min(wanted, lines * columns))
        for columns, room in COLUMN_ROOM.items()
    ]
    # The most statements; where two ways hold as many, the broader columns, for more choice.
    best = max(choices, key=len)
    return tuple(dice.shuffled(best))


def _usable(rows: Sequence[Row], room: float, level: Level) -> list[Row]:
    """Return the rows that have room in a column; of another level, only up to the fewest."""
    short = [row for row in rows if width(row.statement) <= room]
    usable = []
    for fits in (True, False):
        alike = [row for row in short if row.fits == fits]
        suiting = [row for row in alike if row.suits(level)]
        spare = [row for row in alike if not row.suits(level)]
        usable += suiting + spare[: max(0, FEWEST - len(suiting))]
    return usable


def _balanced(rows: Sequence[Row], count: int) -> list[Row]:
    """Return up to `count` rows, half of them fitting as far as there are; none if too few."""
    true = [row for row in rows if row.fits]
    false = [row for row in rows if not row.fits]
    if min(len(true), len(false)) < FEWEST or count < 2 * FEWEST:
        return []
    take = min(len(true), max(count // 2, count - len(false)))
    return true[:take] + false[: count - take]
