"""Members of a TOML list replaced, put in and taken out, the remarks between others kept."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from boxwright.game.toml_literal import literal, splice
from boxwright.game.toml_where import Outline
from boxwright.problems import Path


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
    gone, more = spans[front : len(old) - rear], [*map(literal, new[front : len(new) - rear])]
    between = ",\n  " if "\n" in text[slice(*known.values[path])] else ", "
    if gone and more:
        return splice(text, [(gone[0][0], gone[-1][1], between.join(more))])
    if gone:
        start = gone[0][0] if rear else spans[front - 1][1]
        end = spans[len(old) - rear][0] if rear else gone[-1][1]
        return splice(text, [(start, end, "")])
    joined = between.join(more)
    if front:
        at = spans[front - 1][1]
        return splice(text, [(at, at, between + joined)])
    return splice(text, [(spans[0][0], spans[0][0], joined + between)])


def _common(old: Sequence[Any], new: Sequence[Any]) -> tuple[int, int]:
    """Return how many members both have in front, and how many of the rest at the end."""
    most, front, rear = min(len(old), len(new)), 0, 0
    while front < most and old[front] == new[front]:
        front += 1
    while rear < most - front and old[-1 - rear] == new[-1 - rear]:
        rear += 1
    return front, rear
