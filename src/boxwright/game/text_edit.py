"""One change to a TOML text that leaves all else as it was written.

A value with a span of its own is replaced in place, and a key wherever it is written;
what is added or removed goes through tomlkit. The outcome is always read again and
compared with the change made on the values alone.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from copy import deepcopy
from datetime import date, time
from typing import Any

from boxwright.game.toml_where import outline
from boxwright.problems import Edit, Path


def changed(text: str, one: Edit) -> str:
    """Return TOML `text` with one edit made and all else as it was.

    Raises ValueError where the outcome does not read as meant.
    """
    before = tomllib.loads(text)
    if one.key is not None:
        after = renamed(text, one.path, one.key)
    else:
        after = _replaced(text, one) if _has_span(text, one) else _by_tomlkit(text, one)
    if not _same(tomllib.loads(after), meant(before, one)):
        raise ValueError(f"the change to {one.path} does not read as meant")
    return after


def splice(text: str, pieces: Iterable[tuple[int, int, str]]) -> str:
    """Return `text` with each span (start, end) replaced; spans do not overlap."""
    for start, end, new in sorted(pieces, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def renamed(text: str, path: Path, key: str) -> str:
    """Return `text` with the last step of `path` renamed wherever it is written as a key."""
    tokens = [one for one in outline(text).keys if one.path == path]
    return splice(text, ((one.start, one.end, _key(key)) for one in tokens))


def _has_span(text: str, one: Edit) -> bool:
    return one.value is not None and one.path in outline(text).values


def _replaced(text: str, one: Edit) -> str:
    start, end = outline(text).values[one.path]
    return splice(text, [(start, end, literal(one.value))])


def literal(value: Any) -> str:
    """Return `value` as TOML writes it in one line; TypeError for what TOML cannot hold."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{"".join(map(_escaped, value))}"'
    if isinstance(value, Mapping):
        return (
            "{ " + ", ".join(f"{_key(key)} = {literal(one)}" for key, one in value.items()) + " }"
        )
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(literal, value))}]"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, date | time):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} is no value of TOML")


def _escaped(sign: str) -> str:
    if 0xD800 <= ord(sign) <= 0xDFFF:
        raise ValueError("half of a sign cannot be written")
    if sign in '"\\':
        return f"\\{sign}"
    return f"\\u{ord(sign):04X}" if ord(sign) < 0x20 or ord(sign) == 0x7F else sign


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else literal(key)


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
        node = node[step]
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
