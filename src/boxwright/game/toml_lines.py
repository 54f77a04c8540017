"""Whole lines of a TOML text put in and taken out: pairs under headings, and headed tables.

A new pair comes behind the last one of its table. A new table comes behind the last of
its family: a box behind the last box, a version behind the last version of its clue.
Each function returns None where the text is not written in a way that it knows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boxwright.game.model import GameFile, KitFile, RoomFile
from boxwright.game.toml_literal import key_literal, splice, written
from boxwright.game.toml_where import Outline, Section, outline
from boxwright.problems import Path

HEADS = tuple(name for file in (GameFile, KitFile, RoomFile) for name in file.model_fields)
"""The order in which a file's tables follow each other."""

ONE_TABLE = ("game", "time", "goals", "story", "kit", "stand_ins", "room")
"""Tables that are headed themselves; of the others, each member has its heading."""


def is_headed(path: Path) -> bool:
    """Tell whether a table at `path` has a heading of its own in the hand of the house."""
    if len(path) == 1:
        return path[0] in ONE_TABLE
    if len(path) == 2:
        return path[0] in HEADS and path[0] not in ONE_TABLE
    return len(path) == 4 and path[0] == "clues" and path[2] == "versions"


def put_in(text: str, path: Path, value: Any) -> str | None:
    """Return `text` with the new `path` holding `value`."""
    known = outline(text)
    if is_headed(path) and isinstance(value, Mapping):
        return _with_table(text, known, path, value)
    own = [one for one in known.sections if one.path == path[:-1]]
    if not own and is_headed(path[:-1]) and path[:-1] not in known.spots:
        return _with_table(text, known, path[:-1], {str(path[-1]): value})
    if len(own) != 1 or not own[0].path:
        return None
    return _behind(text, own[0].end, f"{_pair(path, value)}\n")


def _pair(path: Path, value: Any) -> str:
    return f"{key_literal(str(path[-1]))} = {written(value)}"


def _with_table(text: str, known: Outline, path: Path, value: Mapping[str, Any]) -> str | None:
    if any(path[:length] in known.values for length in range(1, len(path) + 1)):
        return None
    return _behind(
        text, _family_end(known, path), "".join(f"\n{one}" for one in _table(path, value))
    )


def _table(path: Path, value: Mapping[str, Any]) -> Iterator[str]:
    """Yield the table at `path` and the headed ones in it, each with its heading."""
    inner: list[tuple[Path, Mapping[str, Any]]] = []
    lines = []
    for key, one in value.items():
        below = [((*path, key, name), deeper) for name, deeper in _members(one)]
        if below and all(is_headed(deep) for deep, _ in below):
            inner += below
        else:
            lines.append(f"{_pair((*path, key), one)}\n")
    yield f"[{'.'.join(key_literal(str(step)) for step in path)}]\n{''.join(lines)}"
    for deep, table in inner:
        yield from _table(deep, table)


def _members(value: Any) -> list[tuple[str, Mapping[str, Any]]]:
    pairs = list(value.items()) if isinstance(value, Mapping) else []
    return pairs if all(isinstance(one, Mapping) for _, one in pairs) else []


def _family_end(known: Outline, path: Path) -> int:
    """Return the offset behind the last table of the family of `path`, or of one before it."""
    for length in range(len(path) - 1, 0, -1):
        ends = [one.end for one in known.sections if one.path[:length] == path[:length]]
        if ends:
            return max(ends)
    before = HEADS[: HEADS.index(str(path[0]))] if path[0] in HEADS else HEADS
    ends = [one.end for one in known.sections if not one.path or one.path[0] in before]
    return max(ends)


def _behind(text: str, end: int, lines: str) -> str:
    """Return `text` with `lines` behind the line on which `end` lies; 0 is the very front."""
    if end == 0:
        lines = lines.removeprefix("\n")
        return f"{lines}\n{text}" if text.strip() else text + lines
    at = text.find("\n", end)
    if at < 0:
        return f"{text}\n{lines}"
    return text[: at + 1] + lines + text[at + 1 :]


def take_out(text: str, path: Path) -> str | None:
    """Return `text` without `path`: the lines of a pair, or of a table with all below it."""
    known = outline(text)
    if path in known.pairs:
        return splice(text, [(*_lines(text, *known.pairs[path]), "")])
    below = [one for one in known.sections if one.path[: len(path)] == path]
    if not below or any(one[: len(path)] == path for one in _elsewhere(known, below)):
        return None
    for section in reversed(below):
        text = _without(text, section)
    return text


def _elsewhere(known: Outline, sections: list[Section]) -> Iterator[Path]:
    """Yield the paths of pairs that stand under none of `sections`."""
    for path, (start, _) in known.pairs.items():
        if not any(one.start <= start < one.end for one in sections):
            yield path


def _without(text: str, section: Section) -> str:
    start, end = _lines(text, section.start, section.end)
    before, after = text[:start], text[end:]
    if not before:
        return after.removeprefix("\n")
    if before.endswith("\n\n") and (after.startswith("\n") or not after):
        before = before[:-1]
    return before + after


def _lines(text: str, start: int, end: int) -> tuple[int, int]:
    """Return the span of the whole lines from `start` to `end`."""
    newline = text.find("\n", end)
    return text.rfind("\n", 0, start) + 1, len(text) if newline < 0 else newline + 1
