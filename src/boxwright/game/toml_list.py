"""Members of a TOML list replaced, put in and taken out, the remarks of others kept."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from boxwright.game.toml_literal import literal, splice
from boxwright.game.toml_where import Outline
from boxwright.problems import Path

Span = tuple[int, int]
_REST = re.compile(r"[ \t]*(,?)[ \t]*(?:#[^\n]*)?\n")
"""What may stand behind a member that is the last on its line."""


def relisted(
    text: str, known: Outline, path: Path, old: Sequence[Any], new: Sequence[Any]
) -> str | None:
    """Return `text` with the list at `path` changed from `old` to `new`.

    What both have in front and at the end stays as it is written. None where nothing does,
    so that the whole list can as well be written anew.
    """
    front, rear = _common(old, new)
    if front == rear == 0:
        return None
    spans = [known.values[(*path, number)] for number in range(len(old))]
    before, gone = spans[:front], spans[front : len(old) - rear]
    after = spans[len(old) - rear :]
    more = [literal(one) for one in new[front : len(new) - rear]]
    if gone and more:
        start, end = gone[0][0], gone[-1][1]
        return splice(text, [(start, end, _between(text, gone[0]).join(more))])
    if gone:
        return splice(text, [(*_to_cut(text, before, gone, after), "")])
    if after:
        between = _between(text, after[0])
        return splice(text, [(after[0][0], after[0][0], between.join([*more, ""]))])
    return _appended(text, before[-1], more)


def _common(old: Sequence[Any], new: Sequence[Any]) -> tuple[int, int]:
    """Return how many members both have in front, and how many of the rest at the end."""
    most, front, rear = min(len(old), len(new)), 0, 0
    while front < most and old[front] == new[front]:
        front += 1
    while rear < most - front and old[-1 - rear] == new[-1 - rear]:
        rear += 1
    return front, rear


def _indent(text: str, member: Span) -> str | None:
    """Return the blanks before a member that is the first on its line; else None."""
    start = text.rfind("\n", 0, member[0]) + 1
    blanks = text[start : member[0]]
    return blanks if start and not blanks.strip() else None


def _between(text: str, member: Span) -> str:
    indent = _indent(text, member)
    return ", " if indent is None else f",\n{indent}"


def _to_cut(text: str, before: list[Span], gone: list[Span], after: list[Span]) -> Span:
    """Return what goes with the members `gone`: whole lines, or a comma."""
    indent, rest = _indent(text, gone[0]), _REST.match(text, gone[-1][1])
    if indent is not None and rest is not None:
        return gone[0][0] - len(indent), rest.end()
    if after:
        return gone[0][0], after[0][0]
    return before[-1][1], gone[-1][1]


def _appended(text: str, last: Span, more: list[str]) -> str:
    """Return `text` with members behind the last one, on lines of their own if that is."""
    indent, rest = _indent(text, last), _REST.match(text, last[1])
    if indent is None or rest is None:
        between = ", "
        return splice(text, [(last[1], last[1], "".join(between + one for one in more))])
    lines = "".join(f"{indent}{one},\n" for one in more)
    comma = "" if rest[1] else ","
    return splice(text, [(last[1], last[1], comma), (rest.end(), rest.end(), lines)])
