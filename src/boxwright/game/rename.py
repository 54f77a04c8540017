"""Give a thing of a game another id, wherever the id is used; remarks and looks stay."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path as File
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME, ROOM, SECTIONS
from boxwright.game.folder import Problems
from boxwright.game.model import ID_PATTERN, RESERVED_IDS
from boxwright.game.placeholders import spans
from boxwright.game.toml_file import TomlFile, decoded, parse_bytes, parsed
from boxwright.game.toml_literal import splice
from boxwright.game.uses import uses
from boxwright.game.write import encoded, put, source
from boxwright.problems import Path, Problem, Where
from boxwright.text import better_id, nearest


@frozen_value
class Change:
    """One line of the game file, before and after."""

    line: int
    before: str
    after: str


def rename(folder: File, old: str, new: str) -> tuple[Change, ...] | Problems:
    """Rename the box, lock, item or clue `old` to `new` in a game folder.

    Returns the lines that were changed, or why nothing was.
    """
    found = source(folder, GAME)
    if isinstance(found, Problem):
        return (found,)
    path, raw = found
    text = decoded(raw, GAME)
    file = text if isinstance(text, Problem) else parsed(text, GAME)
    if isinstance(file, Problem):
        return (file,)
    after = renamed(file, _room_ids(folder), old, new)
    if isinstance(after, Problem):
        return (after,)
    problems = put(folder, {GAME: (path, raw, encoded(after, raw))})
    return problems or tuple(_changes(file.text, after))


def renamed(file: TomlFile, places: tuple[str, ...], old: str, new: str) -> str | Problem:
    """Return the text of a game file with the thing `old` renamed to `new`.

    `places` are the ids of the room, which things cannot have.
    """
    fault = _fault(file, places, old, new)
    if fault is not None:
        return fault
    after = _renamed(file, old, new)
    if tomllib.loads(after) != _meant(dict(file.data), old, new):
        return Problem.of("rename.by-hand", file.where(_own(file, old)), id=old)
    return after


def _own(file: TomlFile, id: str) -> Path:
    return next(((section, id) for section in SECTIONS if id in _table(file.data.get(section))), ())


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _ids(file: TomlFile) -> list[str]:
    return [id for section in SECTIONS for id in _table(file.data.get(section))]


def _room_ids(folder: File) -> tuple[str, ...]:
    found = source(folder, ROOM)
    file = found if isinstance(found, Problem) else parse_bytes(found[1], ROOM)
    return () if isinstance(file, Problem) else tuple(_table(file.data.get("places")))


def _fault(file: TomlFile, places: tuple[str, ...], old: str, new: str) -> Problem | None:
    known = _ids(file)
    if old not in known:
        near = nearest(old, known)
        code = "rename.no-such-id" if near is None else "rename.no-such-id-but"
        where = Where(GAME, (), 1, 1)
        return Problem.of(code, where, id=old, near=near or "", choices=tuple(known))
    where = file.where(_own(file, old))
    if known.count(old) > 1:
        return _two_things(file, old)
    if not re.fullmatch(ID_PATTERN, new):
        return Problem.of("rename.bad-id", where, id=new, better=better_id(new))
    if new in RESERVED_IDS:
        return Problem.of("rename.reserved", where, id=new, choices=tuple(sorted(RESERVED_IDS)))
    if new == old:
        return Problem.of("rename.same", where, id=new)
    if new in known:
        line = file.where(_own(file, new)).line or 0
        return Problem.of("rename.taken", where, id=new, line=line)
    if new in places:
        return Problem.of("rename.taken-by-room", where, id=new)
    return None


def _two_things(file: TomlFile, id: str) -> Problem:
    """Return the problem that `id` names several things, of which only people know the meant one.

    Nothing in a text, or in a list of what a version adds, tells which of them it is about.
    """
    places = [
        file.where((section, id)) for section in SECTIONS if id in _table(file.data.get(section))
    ]
    things = tuple(".".join(map(str, place.path)) for place in places)
    lines = tuple(place.line or 0 for place in places)
    return Problem.of("rename.two-things", places[0], id=id, things=things, lines=lines)


def _renamed(file: TomlFile, old: str, new: str) -> str:
    """Replace the id in the text itself, token by token, so that all else stays as it is."""
    pieces: set[tuple[int, int, str]] = set()
    for use, path in uses(file.data, old):
        if use == "key":
            keys = [one for one in file.outline.keys if one.path == path]
            pieces |= {(one.start, one.end, new) for one in keys}
        else:
            start, end = file.outline.values[path]
            pieces |= set(_within(file.text[start:end], start, use == "text", old, new))
    return splice(file.text, pieces)


def _within(
    raw: str, offset: int, is_text: bool, old: str, new: str
) -> Iterator[tuple[int, int, str]]:
    """Yield the id's spans inside a written value, quotes and all."""
    if is_text:
        found = list(spans(raw, old))
    else:
        found = [match.span() for match in re.finditer(re.escape(old), raw)]
    yield from ((offset + start, offset + end, new) for start, end in found)


def _meant(data: dict[str, Any], old: str, new: str) -> dict[str, Any]:
    """Return the values as they should read afterwards, worked out on the values alone."""
    found = list(uses(data, old))
    data = deepcopy(data)
    for use, path in found:
        node = _at(data, path[:-1])
        if use == "value":
            node[path[-1]] = new
        elif use == "text":
            text = node[path[-1]]
            node[path[-1]] = splice(text, ((*span, new) for span in spans(text, old)))
    for use, path in sorted(found, key=lambda one: -len(one[1])):
        if use == "key":
            node = _at(data, path[:-1])
            node[new] = node.pop(old)
    return data


def _at(data: Any, path: Path) -> Any:
    for step in path:
        data = data[step]
    return data


def _changes(before: str, after: str) -> Iterator[Change]:
    pairs = zip(before.split("\n"), after.split("\n"), strict=True)
    for number, (old, new) in enumerate(pairs, start=1):
        if old != new:
            yield Change(number, old.strip(), new.strip())
