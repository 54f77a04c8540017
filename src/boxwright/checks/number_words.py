"""Numbers in words as the figures that they stand for: digit by digit, in pairs, in full.

The words stand in the catalogue (`leak.number-words`), so that a language more brings its
own; those that build numbers in another order than English are read digit by digit alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from boxwright.messages import words
from boxwright.problems import say


@lru_cache(maxsize=8)
def number_words(language: str) -> Mapping[str, int]:
    """Return the number words of a language: nought to ninety, hundred and thousand."""
    pairs = (pair.split("=") for pair in words(say("leak.number-words"), language).split())
    return {word: int(value) for word, value in pairs}


def figures_of(tokens: Iterable[str], language: str) -> str:
    """Return the digits that a row of number words and figures stands for.

    `four two seven`, `four twenty-seven` and `four hundred and twenty-seven` are 427. Words
    that are no numbers are passed over.
    """
    known = number_words(language)
    done: list[str] = []
    value: int | None = None
    for token in tokens:
        number = known.get(token.lower())
        if number is not None and value is not None:
            joined = _joined(value, number)
            if joined is not None:
                value = joined
                continue
        if number is not None or token.isdecimal():
            done += [] if value is None else [str(value)]
            value = number
            done += [token] if number is None else []
    return "".join([*done, *([] if value is None else [str(value)])])


def _joined(value: int, number: int) -> int | None:
    """Return the number that `value` and a word more make; None where a new one begins."""
    if number in (100, 1000):
        thousands, rest = divmod(value, 1000)
        return value * 1000 if number == 1000 else thousands * 1000 + rest * 100
    tens_free, units_free = value >= 100 and value % 100 == 0, value >= 20 and value % 10 == 0
    if 10 <= number < 100:
        return value + number if tens_free else None
    return value + number if number > 0 and (tens_free or units_free) else None
