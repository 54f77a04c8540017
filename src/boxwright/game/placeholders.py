"""`{id}` in a text prints that thing's name; `{{` and `}}` print the braces themselves.

Braces with anything but a name between them, and stray ones that no name touches, are text
like any other.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

_TOKEN = re.compile(r"\{\{|\}\}|\{(\s*[^\W\d_][\w\s-]*)\}|\{[^{}]*\}|[{}]")
_OPENED = re.compile(r"[^\W\d_]")
_CLOSED = re.compile(r"\w")


def names_in(text: str) -> tuple[str, ...]:
    """Return what stands between braces in `text`, in order, blanks around it dropped."""
    return tuple(match[1].strip() for match in _TOKEN.finditer(text) if match[1] is not None)


def stray_brace(text: str) -> int | None:
    """Return the offset of the first brace that a name touches and that has no partner."""
    for match in _TOKEN.finditer(text):
        start = match.start()
        opened = match[0] == "{" and _OPENED.match(text, start + 1)
        closed = match[0] == "}" and start > 0 and _CLOSED.match(text, start - 1)
        if opened or closed:
            return start
    return None


def filled(text: str, name_of: Callable[[str], str]) -> str:
    """Return `text` with each `{id}` replaced by `name_of(id)` and doubled braces single."""

    def one(match: re.Match[str]) -> str:
        if match[1] is not None:
            return name_of(match[1].strip())
        return match[0][0] if match[0] in ("{{", "}}") else match[0]

    return _TOKEN.sub(one, text)


def spans(text: str, id: str) -> Iterator[tuple[int, int]]:
    """Yield where `id` itself stands between braces in `text`."""
    for match in _TOKEN.finditer(text):
        if match[1] is not None and match[1].strip() == id:
            start = match.start(1) + match[1].index(id)
            yield start, start + len(id)
