"""Values and keys as TOML writes them, in the hand of the house."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date, time
from typing import Any

WIDEST = 96
"""A list that is longer in one line gets a line for each of its members."""


def splice(text: str, pieces: Iterable[tuple[int, int, str]]) -> str:
    """Return `text` with each span (start, end) replaced; spans do not overlap."""
    for start, end, new in sorted(pieces, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def written(value: Any) -> str:
    """Return `value` as a pair under a heading has it: a long list over several lines."""
    line = literal(value)
    if not isinstance(value, list | tuple) or len(line) <= WIDEST:
        return line
    return "[\n" + "".join(f"  {literal(one)},\n" for one in value) + "]"


def literal(value: Any) -> str:
    """Return `value` as TOML writes it in one line; TypeError for what TOML cannot hold."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{"".join(map(_escaped, value))}"'
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{key_literal(key)} = {literal(one)}" for key, one in value.items())
        return f"{{ {pairs} }}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(literal, value))}]"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, date | time):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} is no value of TOML")


def key_literal(key: str) -> str:
    """Return `key` as TOML writes it."""
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else literal(key)


def _escaped(sign: str) -> str:
    if 0xD800 <= ord(sign) <= 0xDFFF:
        raise ValueError("half of a sign cannot be written")
    if sign in '"\\':
        return f"\\{sign}"
    return f"\\u{ord(sign):04X}" if ord(sign) < 0x20 or ord(sign) == 0x7F else sign
