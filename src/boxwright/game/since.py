"""What happened to a game's files between a state that somebody knows and now, line by line."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from typing import Literal

from boxwright.frozen import frozen_value
from boxwright.game.history import History

MOST_FILES = 20
MOST_LINES = 60
Sort = Literal["same", "gone", "new", "cut"]


@frozen_value
class Line:
    """One line of a file: taken away, put in, the same, or the sign that some are left out."""

    sort: Sort
    text: str


@frozen_value
class ChangedFile:
    """One file that is otherwise now; without lines where it is no text."""

    name: str
    sort: Literal["changed", "new", "gone"]
    lines: tuple[Line, ...]


def changed_since(history: History, tag: str) -> tuple[ChangedFile, ...] | None:
    """Return every file that differs from the state `tag`; None where that one is forgotten."""
    before, now = history.files_at(tag), history.files_at(history.now().tag)
    if before is None or now is None:
        return None
    names = sorted({**before, **now})
    differ = [name for name in names if before.get(name) != now.get(name)]
    return tuple(
        _changed(history, name, before.get(name), now.get(name)) for name in differ[:MOST_FILES]
    )


def _changed(history: History, name: str, old: str | None, new: str | None) -> ChangedFile:
    sort: Literal["changed", "new", "gone"] = (
        "new" if old is None else "gone" if new is None else "changed"
    )
    texts = [_text(history, digest) for digest in (old, new)]
    if None in texts:
        return ChangedFile(name, sort, ())
    lines = _lines(*(text.splitlines() for text in texts if text is not None))
    return ChangedFile(name, sort, tuple(_first(lines)))


def _text(history: History, digest: str | None) -> str | None:
    """Return the text that is kept under a digest; None where it is no text, or gone."""
    if digest is None:
        return ""
    try:
        return history.bytes_of(digest).decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _lines(old: list[str], new: list[str]) -> Iterator[Line]:
    """Yield what differs, with one line before and after it."""
    sorts: dict[str, Sort] = {"-": "gone", "+": "new", " ": "same", "@": "cut"}
    found = list(difflib.unified_diff(old, new, n=1, lineterm=""))[3:]  # two heads, first place
    for line in found:
        sort = sorts[line[0]]
        yield Line(sort, "" if sort == "cut" else line[1:])


def _first(lines: Iterator[Line]) -> Iterator[Line]:
    for count, line in enumerate(lines):
        if count == MOST_LINES:
            yield Line("cut", "")
            return
        yield line
