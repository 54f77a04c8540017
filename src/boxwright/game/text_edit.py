"""One change to a TOML text that leaves all else as it was written.

A value with a span of its own is replaced in place, and a key wherever it is written;
lines are put in and taken out as a person would. What is written in a rarer way goes
through tomlkit. The outcome is always read again and compared with the change made on
the values alone.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterator, Mapping
from copy import deepcopy
from typing import Any

from boxwright.game.toml_lines import is_headed, put_in, take_out
from boxwright.game.toml_list import relisted
from boxwright.game.toml_literal import key_literal, literal, splice, written
from boxwright.game.toml_where import outline
from boxwright.problems import Edit, Path


def changed(text: str, one: Edit) -> str:
    """Return TOML `text` with one edit made and all else as it was.

    Raises ValueError where the outcome does not read as meant.
    """
    before = tomllib.loads(text)
    data = meant(before, one)
    after = _by_lines(text, before, one) if one.key is None else renamed(text, one.path, one.key)
    if one.key is None and not _reads(after, data):
        after = _by_tomlkit(text, one)
    if after is None or not _reads(after, data):
        raise ValueError(f"the change to {one.path} does not read as meant")
    return after


def rewritten(text: str, new: Mapping[str, Any]) -> str:
    """Return TOML `text` changed so that it says `new`, all else as it was written.

    Raises ValueError where the outcome does not read as meant.
    """
    inline = outline(text).values.keys()
    for one in list(_differences(tomllib.loads(text), new, (), inline)):
        text = changed(text, one)
    if not _reads(text, new):
        raise ValueError("the text does not read as meant")
    return text


def _differences(
    old: Mapping[str, Any], new: Mapping[str, Any], path: Path, inline: Collection[Path]
) -> Iterator[Edit]:
    """Yield what turns `old` into `new`: what goes first, then what changes or comes.

    Tables at the paths `inline` are values of their own and change as a whole.
    """
    yield from (Edit("", (*path, key)) for key in old if key not in new)
    for key, value in new.items():
        at = (*path, key)
        if key not in old:
            yield from _additions(at, value)
        elif isinstance(old[key], dict) and isinstance(value, Mapping) and at not in inline:
            yield from _differences(old[key], value, at, inline)
        elif not _same(old[key], _plain(value)):
            yield Edit("", at, value)


def _additions(path: Path, value: Any) -> Iterator[Edit]:
    """Yield what adds `value` at `path`; a family that is new comes table by table."""
    if isinstance(value, Mapping) and is_headed((*path, "x")):
        for key, inner in value.items():
            yield Edit("", (*path, key), inner)
    else:
        yield Edit("", path, value)


def renamed(text: str, path: Path, key: str) -> str:
    """Return `text` with the last step of `path` renamed wherever it is written as a key."""
    tokens = [one for one in outline(text).keys if one.path == path]
    return splice(text, ((one.start, one.end, key_literal(key)) for one in tokens))


def _by_lines(text: str, before: Any, one: Edit) -> str | None:
    """Return `text` changed line by line, where it is written in a way that allows it."""
    known = outline(text)
    if one.value is None:
        return take_out(text, one.path)
    if one.path not in known.values:
        return put_in(text, one.path, one.value)
    old = before
    for step in one.path:
        old = old[step]
    found = None
    if isinstance(old, list) and isinstance(one.value, list | tuple):
        found = relisted(text, known, one.path, old, _plain(one.value))
    if found is not None:
        return found
    as_text = written if one.path in known.pairs else literal
    return splice(text, [(*known.values[one.path], as_text(one.value))])


def _reads(text: str | None, data: Any) -> bool:
    """Tell whether `text` says `data`; a table without members may as well not be there."""
    try:
        return text is not None and _same(_filled(tomllib.loads(text)), _filled(data))
    except tomllib.TOMLDecodeError:
        return False


def _filled(data: Any) -> Any:
    if not isinstance(data, dict):
        return data
    inner = ((key, _filled(value)) for key, value in data.items())
    return {key: value for key, value in inner if value != {}}


def _by_tomlkit(text: str, one: Edit) -> str:
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
        node: Any = document
        for step in one.path[:-1]:
            node = node[step]
        if one.value is None:
            del node[one.path[-1]]
        else:
            node[one.path[-1]] = tomlkit.parse(f"v = {literal(one.value)}")["v"]
        return tomlkit.dumps(document)
    except (TOMLKitError, KeyError, IndexError, TypeError) as error:
        raise ValueError(str(error)) from error


def meant(data: Any, one: Edit) -> Any:
    """Return `data` as `one` wants it; the order of keys means nothing."""
    data = deepcopy(data)
    node = data
    for step in one.path[:-1]:
        node = node.setdefault(step, {}) if isinstance(node, dict) else node[step]
    last = one.path[-1]
    if one.key is not None:
        node[one.key] = node.pop(last)
    elif one.value is None:
        del node[last]
    else:
        node[last] = _plain(one.value)
    return data


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    return [_plain(inner) for inner in value] if isinstance(value, list | tuple) else value


def can(data: Any, one: Edit) -> bool:
    """Tell whether `one` has a path that leads somewhere in `data`, and its new key is new."""
    node = data
    for step in one.path[:-1]:
        if not _has(node, step):
            return False
        node = node[step]
    if not one.path:
        return False
    last = one.path[-1]
    if one.key is not None:
        return isinstance(node, dict) and last in node and one.key not in node
    return _has(node, last) or (one.value is not None and isinstance(node, dict))


def _has(node: Any, step: Any) -> bool:
    if isinstance(node, dict):
        return step in node
    return isinstance(node, list) and isinstance(step, int) and 0 <= step < len(node)


def _same(left: Any, right: Any) -> bool:
    """Compare sort by sort: 1 is not true, and NaN is NaN."""
    if type(left) is not type(right):
        return False
    if isinstance(left, dict):
        return left.keys() == right.keys() and all(_same(left[key], right[key]) for key in left)
    if isinstance(left, list):
        return len(left) == len(right) and all(map(_same, left, right))
    return bool(left == right) or (left != left and right != right)  # noqa: PLR0124 - NaN
