"""Every sign of the teacher's texts can be printed; what is printed for others is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.content.read import content_of
from boxwright.problems import Answers, Finding, Message, Path, Problem, Where

CODE = "font.lacks"
NEVER_PRINTED = frozenset({"code", "shelf_code", "content", "id"})
"""Keys whose text no page shows as it was typed."""

Text = tuple[Where, str]


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each sign that no font holds, at the first of the texts that have it."""
    places: dict[tuple[str, str], list[Problem]] = {}
    for where, text in _unusual(edition, about):
        from boxwright.fonts import gate  # late: it opens fonts, and few games need it

        for problem in gate(text, where)[1]:
            key = (problem.code, _sign(problem.what))
            places.setdefault(key, []).append(problem)
    for (_, sign), (first, *rest) in places.items():
        also = tuple(one.where for one in rest)
        yield Finding(first, "note", "computed", Answers((sign,)), also=also)


def _sign(message: Message) -> str:
    return str(message.args.get("sign", message.args.get("text", "")))


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
