"""Values that no field may hold, wherever they stand: invisible signs, and stray dates.

Names in any script, emoji, markup of any kind, formulas: all that is text like any
other, and passes. A control sign prints nothing and breaks what reads it; a sign that
turns the direction of writing or has no width shows another text than the one that is
there, and hides a code from the checks. Joiners stay, since scripts and emoji need them.
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
_DIRECTION = [0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]
_NO_WIDTH = [0x180E, 0x200B, 0xFEFF, *range(0x2060, 0x2065)]
_UNSEEN = frozenset(map(chr, _DIRECTION + _NO_WIDTH))
_AROUND = 15


def odd_signs(file: TomlFile) -> Iterator[Problem]:
    """Yield a Problem for each text or key of `file` with a control sign in it."""
    for path, value in _walk(file.data, ()):
        for text in (one for one in (path[-1], value) if isinstance(one, str)):
            sign = control_sign(text)
            if sign is not None:
                near = around_sign(text)
                yield Problem.of("folder.control-sign", file.where(path), sign=sign, text=near)


def odd_options(file: TomlFile) -> Iterator[Problem]:
    """Yield a Problem for each date, infinity or NaN among a version's free options."""
    for path, value in _walk(file.data, ()):
        if len(path) < 6 or path[0] != "clues" or path[4] != "options":
            continue
        if isinstance(value, date | time) or (isinstance(value, float) and not isfinite(value)):
            yield Problem.of("folder.option-sort", file.where(path), key=str(path[-1]))


def control_sign(text: str) -> str | None:
    """Return the first invisible sign of `text` as `U+0007`, with its Unicode name if it has one.

    None where there is no such sign.
    """
    at = _first(text)
    if at is None:
        return None
    code = f"U+{ord(text[at]):04X}"
    name = unicodedata.name(text[at], "").lower()
    return f"{code}, {name}" if name else code


def around_sign(text: str) -> str:
    """Return what can be seen around the first invisible sign of `text`."""
    at = _first(text) or 0
    piece = text[max(0, at - _AROUND) : at + _AROUND + 1]
    return " ".join("".join(sign for sign in piece if not _is_unseen(sign)).split())


def _first(text: str) -> int | None:
    return next((at for at, sign in enumerate(text) if _is_unseen(sign)), None)


def _is_unseen(sign: str) -> bool:
    if sign in _UNSEEN:
        return True
    return sign not in _ALLOWED and unicodedata.category(sign) in ("Cc", "Cs")


def _walk(value: Any, base: Path) -> Iterator[tuple[Path, Any]]:
    pairs: Any = ()
    if isinstance(value, Mapping):
        pairs = value.items()
    elif isinstance(value, list):
        pairs = enumerate(value)
    for key, inner in pairs:
        yield (*base, key), inner
        yield from _walk(inner, (*base, key))
