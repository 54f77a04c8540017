"""The teacher's own places: the table read, what is wrong with it, and the size of a label."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxwright.content.tables import Table
from boxwright.frozen import frozen_value
from boxwright.problems import Problem, Where
from boxwright.puzzles.contract import Given

TABLE, PLACE, HINT = "places", "place", "hint"
HERE = Where("", ("content",))
LEAST_UNUSED = 8
LINE_SIGNS = 12  # in one line of a label
HINT_SIGNS = 60


@frozen_value
class OwnPlace:
    """One row: the place's name as lines of a label, a hint at it if there is one."""

    lines: tuple[str, ...]
    hint: str
    row: int

    @property
    def name(self) -> str:
        """The label in one line."""
        return " ".join(self.lines)


def table_of(given: Given) -> Table | None:
    """Return the teacher's table of places, if there is one."""
    return given.content.tables.get(TABLE)


def own_places(table: Table) -> list[OwnPlace]:
    """Return every row that has a place."""
    return [
        OwnPlace(label(name), " ".join(row.get(HINT, "").split()), at)
        for at, row in enumerate(table.rows)
        if (name := " ".join(row.get(PLACE, "").split()))
    ]


def label(name: str) -> tuple[str, ...]:
    """Return `name` in one line, or in two of about one length if it is long."""
    words = name.split()
    if len(name) <= LINE_SIGNS - 3 or len(words) == 1:
        return (name,)
    cuts = [(" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))]
    return min(cuts, key=lambda lines: max(map(len, lines)))


def faults(table: Table, moves: int, by_hints: bool) -> Iterator[Problem]:
    """Yield what keeps a table from being told: missing, long or repeated names and hints."""
    if PLACE not in table.columns:
        yield Problem.of(
            "route-map.no-column", HERE, file=table.file, column=PLACE, found=table.columns
        )
        return
    places = own_places(table)
    yield from _long(table, places)
    yield from _twice(table, [(one.row, one.name) for one in places], "route-map.place-twice")
    if by_hints:
        hints = [(one.row, one.hint) for one in places if one.hint]
        yield from _twice(table, hints, "route-map.hint-twice")
    yield from _few(table, places, moves, by_hints)


def _line(table: Table, row: int) -> int:
    """Return the line of the file in which a row stands; rows follow the heads if none is kept."""
    return table.lines[row] if row < len(table.lines) else row + 2


def _long(table: Table, places: Sequence[OwnPlace]) -> Iterator[Problem]:
    for one in places:
        line = _line(table, one.row)
        if max(map(len, one.lines)) > LINE_SIGNS:
            yield Problem.of(
                "route-map.long-name",
                HERE,
                file=table.file,
                line=line,
                name=one.name,
                most=LINE_SIGNS,
            )
        if len(one.hint) > HINT_SIGNS:
            yield Problem.of(
                "route-map.long-hint",
                HERE,
                file=table.file,
                line=line,
                found=len(one.hint),
                most=HINT_SIGNS,
            )


def _twice(table: Table, texts: Sequence[tuple[int, str]], code: str) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    for row, text in texts:
        first = seen.setdefault(text.casefold(), row)
        if first != row:
            line, earlier = _line(table, row), _line(table, first)
            yield Problem.of(code, HERE, file=table.file, line=line, text=text, earlier=earlier)


def _few(table: Table, places: Sequence[OwnPlace], moves: int, by_hints: bool) -> Iterator[Problem]:
    need = moves + LEAST_UNUSED
    if len(places) < need:
        yield Problem.of(
            "route-map.few-places",
            HERE,
            file=table.file,
            found=len(places),
            need=need,
            moves=moves,
            unused=LEAST_UNUSED,
        )
    hints = sum(bool(one.hint) for one in places)
    if by_hints and hints < moves:
        yield Problem.of("route-map.few-hints", HERE, file=table.file, found=hints, need=moves)
