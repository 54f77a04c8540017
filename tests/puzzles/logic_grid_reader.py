"""Reads a logic grid as a pupil does, from its English sentences alone, and tries everything.

Shares nothing with our solver or maker: a sentence is taken by its words, and every
arrangement there is gets tried.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import permutations, product

Rows = dict[str, int]
"""The row in which each thing stands; where there is an order, rows are counted along it."""


def arrangements(lists: Sequence[Sequence[str]], along: int) -> Iterator[Rows]:
    """Yield every way in which the things of all lists can go together."""
    size = len(lists[0])
    fixed = [tuple(range(size))]
    rows = [fixed if at == along else list(permutations(range(size))) for at in range(len(lists))]
    for choice in product(*rows):
        yield {
            thing: row
            for things, places in zip(lists, choice, strict=True)
            for thing, row in zip(things, places, strict=True)
        }


def things_in(sentence: str, lists: Sequence[Sequence[str]]) -> list[str]:
    """Return the things that a sentence names, in its order."""
    names = sorted((thing for things in lists for thing in things), key=len, reverse=True)
    pattern = "|".join(rf"\b{re.escape(name)}\b" for name in names)
    return re.findall(pattern, sentence)


def is_true(sentence: str, things: Sequence[str], rows: Rows) -> bool:
    """Tell whether a sentence about `things` is true of an arrangement."""
    text = sentence.lower()
    at = [rows[thing] for thing in things]
    if text.startswith("of "):
        return {at[0], at[1]} == {at[2], at[3]}
    if "either" in text or "neither" in text:
        subject = at.pop() if text.startswith(("either", "neither")) else at.pop(0)
        return (subject in at) != ("neither" in text)
    if "between" in text:
        return at[1] - at[0] == {"one": 2, "two": 3}[text.split()[-3]]
    if "right before or right after" in text:
        return abs(at[1] - at[0]) == 1
    if "right before" in text:
        return at[1] - at[0] == 1
    if "somewhere before" in text:
        return at[0] < at[1]
    return (at[0] == at[1]) != (" not " in text)


def all_that_fit(
    sentences: Sequence[str], lists: Sequence[Sequence[str]], along: int
) -> list[Rows]:
    """Return every arrangement of which all sentences are true."""
    named = [(sentence, things_in(sentence, lists)) for sentence in sentences]
    return [
        rows
        for rows in arrangements(lists, along)
        if all(is_true(sentence, things, rows) for sentence, things in named)
    ]
