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


def pieces(text: str) -> Iterator[tuple[str, bool]]:
    """Yield `text` piece by piece: what is printed as it stands, and ids (True) between braces."""
    at = 0
    for match in _TOKEN.finditer(text):
        if match.start() > at:
            yield text[at : match.start()], False
        at = match.end()
        if match[1] is not None:
            yield match[1].strip(), True
        else:
            yield (match[0][0] if match[0] in ("{{", "}}") else match[0]), False
    if at < len(text):
        yield text[at:], False


def filled(text: str, name_of: Callable[[str], str]) -> str:
    """Return `text` with each `{id}` replaced by `name_of(id)` and doubled braces single."""
    return "".join(name_of(one) if is_id else one for one, is_id in pieces(text))


def spans(text: str, id: str) -> Iterator[tuple[int, int]]:
    """Yield where `id` itself stands between braces in `text`."""
    for match in _TOKEN.finditer(text):
        if match[1] is not None and match[1].strip() == id:
            start = match.start(1) + match[1].index(id)
            yield start, start + len(id)
