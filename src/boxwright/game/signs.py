"""Values that no field may hold, wherever they stand: control signs, and stray dates.

Names in any script, emoji, markup of any kind, formulas: all that is text like any
other, and passes. A control sign prints nothing and breaks what reads it.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from datetime import date, time
from math import isfinite
from typing import Any

from boxwright.game.toml_file import TomlFile
from boxwright.problems import Path, Problem

_ALLOWED = "\n\t"


def odd_signs(file: TomlFile) -> Iterator[Problem]:
    """Yield a Problem for each text or key of `file` with a control sign in it."""
    for path, value in _walk(file.data, ()):
        for text in (path[-1], value):
            sign = control_sign(text) if isinstance(text, str) else None
            if sign is not None:
                yield Problem.of("folder.control-sign", file.where(path), sign=sign)


def odd_options(file: TomlFile) -> Iterator[Problem]:
    """Yield a Problem for each date, infinity or NaN among a version's free options."""
    for path, value in _walk(file.data, ()):
        if len(path) < 6 or path[0] != "clues" or path[4] != "options":
            continue
        if isinstance(value, date | time) or (isinstance(value, float) and not isfinite(value)):
            yield Problem.of("folder.option-sort", file.where(path), key=str(path[-1]))


def control_sign(text: str) -> str | None:
    """Return the first control sign of `text` as `U+0007`, if it has one."""
    for sign in text:
        if sign not in _ALLOWED and unicodedata.category(sign) in ("Cc", "Cs"):
            return f"U+{ord(sign):04X}"
    return None


def _walk(value: Any, base: Path) -> Iterator[tuple[Path, Any]]:
    pairs: Any = ()
    if isinstance(value, Mapping):
        pairs = value.items()
    elif isinstance(value, list):
        pairs = enumerate(value)
    for key, inner in pairs:
        yield (*base, key), inner
        yield from _walk(inner, (*base, key))
