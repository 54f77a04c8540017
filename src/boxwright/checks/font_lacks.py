"""Every sign of the teacher's texts can be printed; what is printed for others is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.content.read import content_of
from boxwright.problems import Excerpt, Finding, Path, Problem, Where, say

CODE = "font.lacks"
NEVER_PRINTED = frozenset({"code", "shelf_code", "content", "id"})
"""Keys whose text no page shows as it was typed."""

Text = tuple[Where, str]


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each text with signs that no font holds."""
    for where, text in _unusual(edition, about):
        from boxwright.fonts import gate  # late: it opens fonts, and few games need it

        _, problems = gate(text, where)
        if problems:
            at = int(str(problems[0].what.args["position"]))
            yield Finding(_one(problems), "note", "computed", Excerpt(text, (at - 1, at)))


def _one(problems: tuple[Problem, ...]) -> Problem:
    """Return the problems of one text as one that names each sign."""
    first, *rest = problems
    if not rest:
        return first
    signs = tuple(say("font.sign-as", **one.what.args) for one in problems)
    text = first.what.args["text"]
    return Problem.of(f"{CODE}-several", first.where, signs=signs, text=text)


def _unusual(edition: Edition, about: About) -> Iterator[Text]:
    """Yield the texts of game, kit, room and tables that hold more than plain letters."""
    for role, file in about.folder.files.items():
        for path, text in _texts(file.data, ()):
            yield about.folder.where(role, path), text
    seen: set[Where] = set()
    for clue in edition.game.clues.values():
        content = content_of(about.folder, clue)
        for where, text in () if isinstance(content, tuple) else _cells(content.tables):
            if where not in seen:
                seen.add(where)
                yield where, text


def _texts(value: Any, path: Path) -> Iterator[tuple[Path, str]]:
    if isinstance(value, str):
        if not value.isascii():
            yield path, value
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            if key not in NEVER_PRINTED:
                yield from _texts(inner, (*path, key))
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from _texts(inner, (*path, at))


def _cells(tables: Mapping[str, Any]) -> Iterator[Text]:
    for table in tables.values():
        for line, row in zip(table.lines, table.rows, strict=True):
            for column, cell in row.items():
                if not cell.isascii():
                    yield Where(table.file, (line, column), line), cell
