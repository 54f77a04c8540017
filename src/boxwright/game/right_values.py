"""The value that was meant where one of another sort stands: a hurried hand's, put right.

`ages = 9` means `[9, 9]`, `code = 427` means `"427"`, `"70 minutes"` means `70`. What
cannot be told is left alone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any, get_args, get_origin

from pydantic import BaseModel

from boxwright.game.shape import at_path
from boxwright.problems import Path

RANGES = ("ages", "groups", "pupils", "length")
"""Pairs of a lowest and a highest number: one number alone is both."""

_NUMBER = re.compile(r"(?<![\d.-])\d{1,9}(?:\.\d{1,9})?(?![\d.])")
TRUTHS = {"true": True, "yes": True, "on": True, "false": False, "no": False}


def meant(sort: str, found: Any, model: type[BaseModel], path: Path) -> Any:
    """Return what `found` most likely stands for at `path`; None where that cannot be told.

    `sort` is pydantic's name of the fault: `string_type`, `tuple_type`, ...
    """
    mend = _MENDS.get(sort)
    return None if mend is None or isinstance(found, bool) else mend(found, model, path)


def in_toml(value: Any) -> str:
    """Return a text, number, truth or list as TOML writes it."""
    if isinstance(value, tuple):
        return f"[{', '.join(map(in_toml, value))}]"
    return json.dumps(value, ensure_ascii=False)


def numbers_wanted(model: type[BaseModel], path: Path) -> int:
    """Return how many numbers the list at `path` must have; 0 where it is no such list."""
    for kind in at_path(model, path):
        members = get_args(kind) if get_origin(kind) is tuple else ()
        if members and members[-1] is not ... and all(_is_number(one) for one in members):
            return len(members)
    return 0


def _is_number(kind: Any) -> bool:
    return getattr(kind, "__origin__", kind) in (int, float)


def _text(found: Any, model: type[BaseModel], path: Path) -> str | None:
    if path[-1] == "code" and isinstance(found, tuple) and found:
        return f"one of {', '.join(map(str, found))}"  # not read by people: the file's own word
    return str(found) if isinstance(found, int | float) and abs(found) < 10**12 else None


def _list(found: Any, model: type[BaseModel], path: Path) -> tuple[Any, ...] | None:
    wanted = numbers_wanted(model, path)
    if not wanted:
        return (found,) if isinstance(found, str) and found and "," not in found else None
    if isinstance(found, int | float):
        return (found, found) if path[-1] in RANGES else None
    numbers = _numbers(found)
    if len(numbers) == 1 and path[-1] in RANGES:
        numbers *= 2
    return numbers if len(numbers) == wanted else None


def _numbers(found: Any) -> tuple[int | float, ...]:
    texts = _NUMBER.findall(found.replace("-", " ")) if isinstance(found, str) else []
    return tuple(float(text) if "." in text else int(text) for text in texts)


def _whole(found: Any, model: type[BaseModel], path: Path) -> int | None:
    if isinstance(found, float):
        return int(found) if found.is_integer() and abs(found) < 10**9 else None
    numbers = _numbers(found)
    return numbers[0] if len(numbers) == 1 and isinstance(numbers[0], int) else None


def _truth(found: Any, model: type[BaseModel], path: Path) -> bool | None:
    return TRUTHS.get(found.strip().lower()) if isinstance(found, str) else None


_MENDS: dict[str, Callable[[Any, type[BaseModel], Path], Any]] = {
    "string_type": _text,
    "tuple_type": _list,
    "int_type": _whole,
    "bool_type": _truth,
}
