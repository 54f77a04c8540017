"""Which words a set of letter wheels can show: all of a list at once, in microseconds.

For each position and letter a whole number holds one bit for each word; a wheel is the OR
of its letters, a lock the AND of its wheels. The lowest bit is the commonest word.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice

from boxwright.dice import Dice
from boxwright.game.mechanisms.device import BLANK, Code, Device

SHORTEST_WORD = 3
DRAWN_AMONG = 300
"""A word is drawn among so many of the commonest that can be shown."""


class WordIndex:
    """Words of a list that fit on so many wheels, indexed by letter and position."""

    __slots__ = ("_bits", "fewest", "wheels", "words")

    def __init__(
        self, words: Sequence[str], wheels: int, shortest: int = SHORTEST_WORD, fewest: int = 1
    ) -> None:
        """Index those of `words` (capitals, the commonest first) that are long and short enough.

        Shorter words end in blanks, so that only wheels that have the blank show them.
        """
        self.wheels, self.fewest = wheels, fewest
        least = min(shortest, wheels)
        self.words = tuple(word for word in words if least <= len(word) <= wheels)
        padded = [word.ljust(wheels, BLANK) for word in self.words]
        self._bits = tuple(_columns(padded, at) for at in range(wheels))

    def _shown(self, device: Device) -> int:
        found = (1 << len(self.words)) - 1
        for column, faces in zip(self._bits, device.positions, strict=True):
            wheel = 0
            for face in faces:
                wheel |= column.get(face, 0)
            found &= wheel
        return found

    def count(self, device: Device) -> int:
        """Count the words that `device` can show."""
        return self._shown(device).bit_count()

    def shown(self, device: Device) -> Iterator[str]:
        """Yield the words that `device` can show, the commonest first."""
        return (self.words[at] for at in _set_bits(self._shown(device)))

    def near(self, device: Device, word: str, count: int = 3) -> tuple[str, ...]:
        """Return the words that `device` can show and that differ least from `word`."""
        wanted = word.ljust(self.wheels, BLANK)

        def differences(other: str) -> int:
            pairs = zip(wanted, other.ljust(self.wheels, BLANK), strict=False)
            return sum(a != b for a, b in pairs)

        return tuple(sorted(self.shown(device), key=differences)[:count])

    def draw(
        self, dice: Dice, device: Device, accept: Callable[[Code], bool] | None = None
    ) -> Code | None:
        """Return one of the commonest words that `device` can show and `accept` takes.

        None where there are fewer than `fewest` of them.
        `accept` sees codes, so blanks stand behind a shorter word.
        """
        codes = (tuple(word.ljust(self.wheels, BLANK)) for word in self.shown(device))
        taken = (code for code in codes if accept is None or accept(code))
        choices = list(islice(taken, DRAWN_AMONG))
        return dice.pick(choices) if len(choices) >= self.fewest else None


def _columns(padded: Sequence[str], at: int) -> dict[str, int]:
    """Return for each letter of column `at` the bits of the words that have it there.

    Bits are gathered as bytes first: OR-ing into a growing number is quadratic.
    """
    size = len(padded) // 8 + 1
    gathered: dict[str, bytearray] = {}
    for index, word in enumerate(padded):
        row = gathered.setdefault(word[at], bytearray(size))
        row[index >> 3] |= 1 << (index & 7)
    return {face: int.from_bytes(row, "little") for face, row in gathered.items()}


def _set_bits(bits: int) -> Iterator[int]:
    for byte_at, byte in enumerate(bits.to_bytes(bits.bit_length() // 8 + 1, "little")):
        left = byte
        while left:
            yield byte_at * 8 + (left & -left).bit_length() - 1
            left &= left - 1
