"""The tables of a game's folder as they lie there: what each is, who uses it, what is wrong.

It works on a folder with faults too, so that a table can be mended where it is shown.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path as File
from typing import Any

from boxwright.content.csv_file import read_grid
from boxwright.content.read import KNOWN, SUFFIX, read_content, sort_of
from boxwright.content.tables import Content, Grid
from boxwright.frozen import frozen_value
from boxwright.game.clue_references import CONTENT
from boxwright.game.inside import inside, listed
from boxwright.problems import Problem, Where


@frozen_value
class Listed:
    """One table: its file's name and path, what stands in it, and the clues that name it.

    `grid` is None where the file cannot be read as rows at all; `sort` where its columns
    make no table that is known; `content`, what clues can draw on, where it is at fault.
    """

    name: str
    path: File
    grid: Grid | None
    sort: str | None
    content: Content | None
    clues: tuple[str, ...]
    problems: tuple[Problem, ...]


def tables_of(folder: File, game: Mapping[str, Any]) -> tuple[Listed, ...]:
    """Return the tables in the folder `content/` of a game; `game` is its raw game file."""
    names = [one for one in listed(folder / CONTENT) if _is_table(one)]
    return tuple(found for one in names if (found := table_of(folder, game, one)) is not None)


def table_of(folder: File, game: Mapping[str, Any], name: str) -> Listed | None:
    """Return the table `name`; None where there is no such file."""
    where = Where(f"{CONTENT}/{name}")
    path = inside(folder / CONTENT, name, where, f"{CONTENT}/")
    if isinstance(path, Problem) or not _is_table(name):
        return None
    grid = read_grid(path, where.file)
    content = read_content(folder, name, where)
    clues = tuple(dict.fromkeys(_users(game, name)))
    good, problems = (content, ()) if isinstance(content, Content) else (None, content)
    if not isinstance(grid, Grid):
        return Listed(name, path, None, None, None, clues, problems)
    return Listed(name, path, grid, sort_of(grid.columns), good, clues, problems)


def _is_table(name: str) -> bool:
    return name.lower().endswith(SUFFIX) and not name.startswith(".")


def _users(game: Mapping[str, Any], name: str) -> Iterator[str]:
    """Yield the clues of which a version names the table."""
    clues = game.get("clues")
    for id, clue in clues.items() if isinstance(clues, Mapping) else ():
        versions = clue.get("versions") if isinstance(clue, Mapping) else None
        for version in versions.values() if isinstance(versions, Mapping) else ():
            content = version.get("content") if isinstance(version, Mapping) else None
            if name == content or (isinstance(content, Mapping) and name in content.values()):
                yield id


def first_row(sort: str) -> tuple[str, ...]:
    """Return the columns with which a new table of that sort begins."""
    more = ("wrong1", "wrong2", "wrong3") if sort == "questions" else ()
    return (*KNOWN[sort], *more)
