"""Repeatable chance: the same seed gives the same game on every machine, for good.

The standard library's `random` does not promise its `shuffle` and `sample` from one
Python to the next, so this one is ours: SHA-256 over a key and a counter, sixty-four
bits a draw, unbiased by rejection. `child` makes dice that no other draw disturbs.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, MutableSequence, Sequence
from typing import TypeVar

T = TypeVar("T")

_DRAW = 1 << 64


class Dice:
    """A stream of draws that follows from its key alone."""

    __slots__ = ("_draws", "_key")

    def __init__(self, seed: int | str | bytes) -> None:
        """Start from `seed`; equal seeds of one type give equal streams."""
        raw = seed if isinstance(seed, bytes) else f"{type(seed).__name__}:{seed}".encode()
        self._key = hashlib.sha256(raw).digest()
        self._draws = self._stream()

    def _stream(self) -> Iterator[int]:
        counter = 0
        while True:
            block = hashlib.sha256(self._key + counter.to_bytes(8, "big")).digest()
            for start in range(0, len(block), 8):
                yield int.from_bytes(block[start : start + 8], "big")
            counter += 1

    def child(self, *names: str | int) -> Dice:
        """Return dice of their own for `names`, whatever was or will be drawn here."""
        tail = b"".join(
            len(part).to_bytes(4, "big") + part for part in (str(n).encode() for n in names)
        )
        return Dice(self._key + tail)

    def below(self, bound: int) -> int:
        """Return a whole number from 0 up to, but not including, `bound`."""
        if not 0 < bound <= _DRAW:
            raise ValueError(f"bound must be from 1 to 2**64, not {bound}")
        limit = _DRAW - _DRAW % bound
        draw = next(self._draws)
        while draw >= limit:
            draw = next(self._draws)
        return draw % bound

    def between(self, low: int, high: int) -> int:
        """Return a whole number from `low` to `high`, both included."""
        return low + self.below(high - low + 1)

    def unit(self) -> float:
        """Return a number from 0 up to, but not including, 1 (53 bits)."""
        return (next(self._draws) >> 11) / (1 << 53)

    def chance(self, share: float) -> bool:
        """Return True in `share` of all cases."""
        return self.unit() < share

    def pick(self, choices: Sequence[T]) -> T:
        """Return one of `choices`, each as likely."""
        return choices[self.below(len(choices))]

    def shuffle(self, items: MutableSequence[T]) -> None:
        """Put `items` into a random order, in place (Fisher and Yates)."""
        for last in range(len(items) - 1, 0, -1):
            other = self.below(last + 1)
            items[last], items[other] = items[other], items[last]

    def shuffled(self, items: Sequence[T]) -> list[T]:
        """Return `items` in a random order."""
        copy = list(items)
        self.shuffle(copy)
        return copy

    def sample(self, population: Sequence[T], count: int) -> list[T]:
        """Return `count` different members of `population`, in random order."""
        if not 0 <= count <= len(population):
            raise ValueError(f"cannot draw {count} of {len(population)}")
        return self.shuffled(population)[:count]
