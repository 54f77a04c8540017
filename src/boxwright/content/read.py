"""The content that a game's clues name: files of `content/` as tables, by what they are.

A table is known by its first row; a clue may also say what a file is, with
`content = { questions = "q.csv" }`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path as File

from boxwright.content.csv_file import lacks_column, read_table
from boxwright.content.tables import Content, Table
from boxwright.game.arranged import ArrangedClue
from boxwright.game.clue_references import CONTENT
from boxwright.game.draft import GAME, Draft
from boxwright.game.folder import Folder, Problems, in_order
from boxwright.game.inside import inside
from boxwright.problems import Problem, Where
from boxwright.text import nearest

KNOWN: Mapping[str, tuple[str, ...]] = {
    "questions": ("question", "right"),
    "statements": ("statement", "true"),
    "terms": ("term", "meaning"),
    "events": ("event", "date"),
    "sizes": ("thing", "size", "unit"),
    "categories": ("category", "member"),
    "books": ("call_number", "title"),
    "places": ("place",),
}
"""What tables there are, and the columns that each must have."""

SUFFIX = ".csv"
UNNAMED = ""


def content_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the files that clues name; for `read_game(also=...)`.

    Files that are not there are `read_game`'s own business.
    """
    for id, clue in draft.game.clues.items():
        for name, version in clue.versions.items():
            where = draft.where(GAME, ("clues", id, "versions", name, "content"))
            found = read_content(draft.path, version.content, where)
            if not isinstance(found, Content):
                yield from (one for one in found if not one.code.startswith("folder.no-such-file"))


def content_of(folder: Folder, clue: ArrangedClue) -> Content | Problems:
    """Return the content of a clue in play."""
    where = folder.where(GAME, (*clue.source.path, "content"))
    return read_content(folder.path, clue.content, where)


def read_content(
    folder: File, content: str | Mapping[str, str] | None, where: Where
) -> Content | Problems:
    """Return the tables that `content` names, or all that is wrong with them.

    Args:
        folder: the game folder.
        content: a file, or files by what they are, in its folder `content/`.
        where: the place that names them.
    """
    files = {UNNAMED: content} if isinstance(content, str) else dict(content or {})
    tables: dict[str, Table] = {}
    problems: list[Problem] = []
    for kind, name in files.items():
        at = (
            where
            if kind == UNNAMED
            else Where(where.file, (*where.path, kind), where.line, where.column)
        )
        found = _file(folder, name, at)
        table = found if not isinstance(found, Table) else _known(kind, found, at)
        if isinstance(table, tuple):
            problems += table
        elif isinstance(table, dict):
            tables |= table
    return in_order(problems) if problems else Content(tables)


def read_alone(file: File, where: Where) -> Content | Problems:
    """Return the table in `file`, wherever it lies, by what its first row says that it is.

    `where` is the place that names it.
    """
    if file.suffix.lower() != SUFFIX:
        return (Problem.of("content.no-csv-alone", where, name=str(file)),)
    table = read_table(file, str(file))
    found = _known(UNNAMED, table, where) if isinstance(table, Table) else table
    return Content(found) if isinstance(found, dict) else found


def _file(folder: File, name: str, where: Where) -> Table | Problems:
    path = inside(folder / CONTENT, name, where, f"{CONTENT}/")
    if isinstance(path, Problem):
        return (path,)
    if path.suffix.lower() != SUFFIX:
        return (Problem.of("content.no-csv", where, name=name),)
    return read_table(path, f"{CONTENT}/{name}")


def _known(kind: str, table: Table, where: Where) -> dict[str, Table] | Problems:
    """Return the table under the name of what it is."""
    first = Where(table.file, (), 1)
    if kind == UNNAMED:
        found = sort_of(table.columns)
        if found is not None:
            return {found: table}
        slip = _misspelt(first, table)
        if slip is not None:
            return (slip,)
        known = tuple(",".join(need) for need in KNOWN.values())
        return (Problem.of("content.unknown-table", first, found=table.columns, known=known),)
    lacks = tuple(one for one in KNOWN.get(kind, ()) if one not in table.columns)
    if not lacks:
        return {kind: table}
    return tuple(_lack(first, kind, table, column) for column in lacks)


def sort_of(columns: Iterable[str]) -> str | None:
    """Return what a table with these columns is; None where they make none that is known."""
    there = set(columns)
    return next((one for one, need in KNOWN.items() if set(need) <= there), None)


def _misspelt(where: Where, table: Table) -> Problem | None:
    """Return the Problem that one column is misspelt, where all others make a known table."""
    for kind, need in KNOWN.items():
        lacks = [one for one in need if one not in table.columns]
        spare = [one for one in table.columns if one not in need]
        if len(lacks) == 1 < len(need) and nearest(lacks[0], spare) is not None:
            return _lack(where, kind, table, lacks[0])
    return None


def _lack(where: Where, kind: str, table: Table, column: str) -> Problem:
    return lacks_column(where, kind, table, column, KNOWN[kind])
