"""What a field of pictures is miscounted as: in another order, with look-alikes, one off."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.drawn import family_of, picture_said
from boxwright.puzzles.picture_field import MOST_COUNT, Field

Symbols = tuple[str, ...]


class Miscount(NamedTuple):
    """Symbols in place of the right ones, why, and whether pupils could notice it."""

    symbols: Symbols
    means: Message
    noticed: bool


def miscounts(field: Field, right: Symbols) -> Iterator[Miscount]:
    """Yield wrong codes, the likeliest first; some may be alike, and one may be right."""
    yield from _with_look_alikes(field, right)
    yield from _one_off(field, right)
    yield Miscount(right[::-1], say("count-sheet.mistake-backwards"), False)


def _with_look_alikes(field: Field, right: Symbols) -> Iterator[Miscount]:
    amounts = Counter(it.picture for it in field.placed)
    for at, asked in enumerate(field.asked):
        for other, amount in amounts.items():
            if other == asked or family_of(other) != family_of(asked):
                continue
            pair = {"picture": picture_said(asked), "other": picture_said(other)}
            yield from _put(right, at, int(right[at]) + amount, say("count-sheet.both", **pair))
            yield from _put(right, at, amount, say("count-sheet.instead", **pair))


def _one_off(field: Field, right: Symbols) -> Iterator[Miscount]:
    with_samples = [int(symbol) + 1 for symbol in right]
    if max(with_samples) <= MOST_COUNT:
        samples = say("count-sheet.mistake-samples")
        yield Miscount(tuple(map(str, with_samples)), samples, False)
    for at, asked in enumerate(field.asked):
        said = picture_said(asked)
        yield from _put(right, at, int(right[at]) - 1, say("count-sheet.missed", picture=said))
        yield from _put(right, at, int(right[at]) + 1, say("count-sheet.twice", picture=said))


def _put(right: Symbols, at: int, count: int, means: Message) -> Iterator[Miscount]:
    """Yield `right` with another count at one place, if a wheel can show it."""
    if 0 < count <= MOST_COUNT:
        yield Miscount((*right[:at], str(count), *right[at + 1 :]), means, False)
