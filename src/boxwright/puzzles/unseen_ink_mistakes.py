"""What dots of ink are miscounted as: without the torch, one overlooked, in another order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boxwright.problems import Message, say
from boxwright.puzzles.drawn import picture_said
from boxwright.puzzles.picture_field import MOST_COUNT, Field

Symbols = tuple[str, ...]


class Misreading(NamedTuple):
    """Symbols in place of the right ones, why, and whether pupils could notice it."""

    symbols: Symbols
    means: Message
    noticed: bool


def misreadings(field: Field, asked: Sequence[str], right: Symbols) -> Iterator[Misreading]:
    """Yield wrong codes, the likeliest first; some may be alike, and one may be right."""
    there = Counter(it.picture for it in field.placed)
    counts = [int(symbol) for symbol in right]
    all_of_them = [there[name] for name in asked]
    yield from _whole(all_of_them, say("unseen-ink.mistake-all"))
    without = [whole - count for whole, count in zip(all_of_them, counts, strict=True)]
    yield from _whole(without, say("unseen-ink.mistake-without"))
    for at, name in enumerate(asked):
        said = picture_said(name)
        for off, means in (
            (-1, say("unseen-ink.mistake-missed", picture=said)),
            (1, say("unseen-ink.mistake-twice", picture=said)),
        ):
            yield from _whole([*counts[:at], counts[at] + off, *counts[at + 1 :]], means)
    yield Misreading(right[::-1], say("unseen-ink.mistake-backwards"), False)


def _whole(counts: Sequence[int], means: Message) -> Iterator[Misreading]:
    """Yield these counts, if a wheel can show them all."""
    if all(0 < count <= MOST_COUNT for count in counts):
        yield Misreading(tuple(map(str, counts)), means, False)
