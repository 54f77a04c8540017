"""Text and numbers as files and paper carry them: one canonical form for each."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import unicodedata
from collections.abc import Iterable
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from boxwright.problems import Message, say

if TYPE_CHECKING:
    from fractions import Fraction

ID_LENGTH = 10
MM_PER_INCH = 25.4
POINTS_PER_INCH = 72.0
_UNITS = (
    ("seconds", 1, 100),
    ("minutes", 60, 100),
    ("hours", 3_600, 48),
    ("days", 86_400, 700),
    ("years", 31_556_952, None),
)
"""Name, length in seconds, and up to how many of it one says."""
_STEPS = (1, 2, 5, 10, 15, 20, 30, 60, 120)
"""Minutes between the figures along a clock."""


def canonical_json(value: Any) -> str:
    """Return `value` as JSON that is the same wherever it is written.

    UTF-8 as it is, sorted keys, no NaN or infinity (ValueError), a line feed at the end.
    """
    return json.dumps(value, ensure_ascii=False, sort_keys=True, allow_nan=False, indent=1) + "\n"


def content_id(value: Any) -> str:
    """Return the name that follows from `value` itself: ten characters, a-z and 2-7.

    The first ten of the lower-case RFC 4648 base 32 of the SHA-256 of its canonical JSON.
    """
    digest = hashlib.sha256(canonical_json(value).encode()).digest()
    return base64.b32encode(digest).decode().lower()[:ID_LENGTH]


def nfc(text: str) -> str:
    """Return `text` with composed letters (Unicode NFC), so that equal means equal."""
    return unicodedata.normalize("NFC", text)


def mm(value: float) -> float:
    """Return millimetres rounded to 0.01, as sheets keep them."""
    return round(value, 2)


def mm_from_points(points: float) -> float:
    """Return PostScript points as millimetres."""
    return points * MM_PER_INCH / POINTS_PER_INCH


def points_from_mm(millimetres: float) -> float:
    """Return millimetres as PostScript points."""
    return millimetres * POINTS_PER_INCH / MM_PER_INCH


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Return the one of `known` that `name` most likely meant, if any is near."""
    found = get_close_matches(name, list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def better_id(text: str, fallback: str = "thing") -> str:
    """Return an id as near as can be to `text`: small letters a to z, digits, hyphens."""
    ascii_only = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    words = re.sub(r"[^a-z0-9]+", "-", ascii_only).strip("-")
    return (re.sub(r"^[^a-z]+", "", words) or fallback)[:40].rstrip("-")


def duration(seconds: Fraction | float) -> Message:
    """Say a time as people do: in one unit, to no more than the first two figures, never 0.

    Up to 20 of a unit to the next whole one, up to 100 to the next five.
    """
    for unit, size, most in _UNITS:
        count = max(1, _round(seconds / size))
        if most is None or count < most:
            return say(f"text.time-{unit}", n=count)
    raise AssertionError("the last unit has no end")


def half_minutes(seconds: float) -> str:
    """Return minutes to a half, without a nought behind the point."""
    return f"{round(seconds / 30) / 2:g}"


def _round(value: Fraction | float) -> int:
    if value < 20:
        return round(value)
    step = 5
    while value >= 20 * step:
        step *= 5 if str(step)[0] == "1" else 2
    return step * round(value / step)


def minute_figures(minutes: int, most: int = 9) -> tuple[int, ...]:
    """Return the minutes that are written along a clock of so many, from 0: `most` or fewer."""
    step = next((one for one in _STEPS if minutes / one < most), _STEPS[-1])
    return tuple(range(0, minutes + 1, step))
