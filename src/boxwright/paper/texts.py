"""Is the text that should be on a page there, and no number that should not?"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

# White space, hyphens (a PDF marks those at a line's end in ways of its own) and what is unseen.
_LOOSE = re.compile(r"[\s\-\u00ad\u2010\u2011\u0002\ufffe\ufeff\u200b-\u200f\u2060]+")
_NUMBER = re.compile(r"\d+")


def tight(text: str) -> str:
    """Return `text` in a form that line breaks and ligatures leave alone (NFKC, no spaces)."""
    return _LOOSE.sub("", unicodedata.normalize("NFKC", text))


def absent(wanted: Iterable[str], text: str) -> Iterator[str]:
    """Yield each of the `wanted` texts that a page's `text` does not hold as often as asked."""
    flat = tight(text)
    for one, times in Counter(wanted).items():
        if flat.count(tight(one)) < times:
            yield one


def stray_numbers(text: str, known: Iterable[str]) -> list[str]:
    """Return the numbers in a page's `text` that are neither `known` nor rows of known ones."""
    allowed = frozenset(known)
    found = _NUMBER.findall(unicodedata.normalize("NFKC", text))
    return [number for number in dict.fromkeys(found) if not _made_of(number, allowed)]


def numbers_in(value: Any) -> Iterator[str]:
    """Yield every number of JSON `value` as it may be printed, and those inside its texts."""
    if isinstance(value, dict):
        for item in value.values():
            yield from numbers_in(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from numbers_in(item)
    elif isinstance(value, str | int | float) and not isinstance(value, bool):
        yield from _NUMBER.findall(unicodedata.normalize("NFKC", str(value)))


def _made_of(number: str, allowed: frozenset[str]) -> bool:
    """Tell whether `number` can be cut into allowed ones: cells that touch are read as one."""
    reached = [True] + [False] * len(number)
    for end in range(1, len(number) + 1):
        reached[end] = any(reached[start] and number[start:end] in allowed for start in range(end))
    return reached[-1]
