"""A dial that is turned right, left and right again to a number each time: `12-33-5`.

With a tolerance of t marks a number is as good as any within t of it, round the dial. So
numbers at steps of 2t + 1 are what the lock surely tells apart: 13 of 40 with t = 1, and
13 x 13 x 13 codes. A search that goes number by number needs the last step too where
2t + 1 does not divide the marks: 14 x 14 x 14 tries. Staggered rows may need some less
(2,494 at least, by counting what one try covers), which nobody does by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations, product
from math import comb

from boxwright.game.mechanisms import reading, weakness
from boxwright.game.mechanisms.base import Mechanism
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.shape import Draft, Positions, length_of
from boxwright.game.spelling import WordIndex
from boxwright.problems import Message, Problem, Where, say
from boxwright.text import nfc

USUAL_MARKS = 40
USUAL_NUMBERS = 3
SLIPPED_MARKS = 2
_TOKEN = re.compile(r"\d+|[^\W\d_]+")
_TURNS = frozenset({"r", "l", "right", "left", "to", "then"})


class Dial(Mechanism):
    """Forty marks from 0 and three numbers, dialled exactly, unless its file says otherwise."""

    name = "dial"
    fields = frozenset({"numbers", "tolerance", "length"})
    try_s = Fraction(3)
    """Assumption, no source: clearing it, and a tug."""
    symbol_s = Fraction(4)
    """Assumption, no source: turning to one number."""
    usual_length = USUAL_NUMBERS
    weaknesses = (
        ("close", weakness.too_close),
        ("even", weakness.even_steps),
        ("resting", weakness.rests_on_nought),
    )

    def positions(self, draft: Draft) -> tuple[Positions, int]:
        """Return the marks from 0, once for each number of a code."""
        marks = draft.lock.numbers or USUAL_MARKS
        low, high = length_of(draft, (USUAL_NUMBERS, USUAL_NUMBERS))
        if low != high:
            draft.wrong("length-ranged", "length", low=low, high=high)
        tolerance = draft.lock.tolerance or 0
        if 2 * tolerance + 1 >= marks:
            draft.wrong("tolerance-wide", "tolerance", tolerance=tolerance, numbers=marks)
        return (tuple(str(mark) for mark in range(marks)),) * high, high

    def part(self, text: str) -> dict[str, object] | None:
        """Read `40`: how many marks the dial has."""
        return {"numbers": int(text)} if text.isdecimal() else None

    def read(self, device: Device, text: str, where: Where) -> Code | Problem:
        """Read numbers with anything between them, `R12 L33 R5` and `05` too."""
        code: list[str] = []
        for token in _TOKEN.findall(nfc(text).lower()):
            if token in _TURNS:
                continue
            if not token.isdecimal():
                return reading.unreadable(
                    where, "numbers", token, len(code) + 1, self.example(device)
                )
            code.append(str(int(token)))
        return tuple(code) or Problem.of("mechanism.empty", where)

    def write(self, device: Device, code: Code) -> str:
        """Return the numbers with a dash between them."""
        return "-".join(code)

    def alphabet(self, device: Device) -> str:
        """Return `numbers`."""
        return "numbers"

    def missing(
        self,
        device: Device,
        code: Code,
        at: tuple[int, ...],
        where: Where,
        words: WordIndex | None,
    ) -> Problem:
        """Say of a number beyond the dial how far the dial goes."""
        return Problem.of(
            "mechanism.beyond-dial",
            where,
            code=self.write(device, code),
            position=at[0] + 1,
            face=code[at[0]],
            last=device.positions[at[0]][-1],
            near=self.near_said(device, code, words),
        )

    def told_apart(self, device: Device, length: int | None = None) -> int:
        """Count the codes whose numbers lie at steps of 2t + 1: none opens for another's try."""
        return int((len(device.positions[0]) // _step(device)) ** device.longest)

    def same(self, device: Device, a: Code, b: Code) -> bool:
        """Tell whether each number of `b` is within the tolerance of that of `a`."""
        return len(a) == len(b) and all(
            _apart(device, x, y) <= device.tolerance for x, y in zip(a, b, strict=True)
        )

    def search(self, device: Device, length: int | None = None) -> Iterator[Code]:
        """Yield settings at steps of 2t + 1, those that open most codes first."""
        marks = device.positions[0][:: _step(device)]
        last = self._last_opens(device)
        whole, short = (marks, ()) if last == _step(device) else (marks[:-1], marks[-1:])
        for shorts in range(device.longest + 1):
            for kinds in product((False, True), repeat=device.longest):
                if sum(kinds) == shorts:
                    yield from product(*(short if kind else whole for kind in kinds))

    def runs(self, device: Device, length: int | None = None) -> tuple[tuple[int, int, int], ...]:
        """Count that search: `j` numbers at the last step, which opens fewer codes, at a time."""
        size, step, last = device.longest, _step(device), self._last_opens(device)
        if last == step:
            return (((len(device.positions[0]) // step) ** size, step**size, size),)
        whole = len(device.positions[0]) // step
        return tuple(
            (comb(size, j) * whole ** (size - j), step ** (size - j) * last**j, size)
            for j in range(size + 1)
        )

    def _last_opens(self, device: Device) -> int:
        return len(device.positions[0]) % _step(device) or _step(device)

    def orders(self, device: Device, code: Code) -> tuple[tuple[int, int, int], ...]:
        """Count the orders, leaving out each that an earlier one has ruled out."""
        left = sorted(set(permutations(code)), key=lambda order: [int(n) for n in order])
        runs: list[tuple[int, int, int]] = []
        while left:
            ruled_out = [order for order in left if self.same(device, left[0], order)]
            runs.append((1, len(ruled_out), len(code)))
            left = [order for order in left if order not in ruled_out]
        return tuple(runs)

    def in_search(self, device: Device, code: Code) -> bool:
        """Tell whether every number stands at a step of the search."""
        return all(int(number) % _step(device) == 0 for number in code)

    def neighbours(self, device: Device, code: Code) -> Iterator[Code]:
        """Yield every other code within the tolerance."""
        near = range(-device.tolerance, device.tolerance + 1)
        choices = [[_shifted(device, number, by) for by in near] for number in code]
        yield from (other for other in product(*choices) if other != code)

    def slips(self, device: Device, meant: Code) -> Iterator[tuple[str, Code]]:
        """One number some marks off, beyond what the tolerance forgives; then other orders."""
        first = device.tolerance + 1
        for by in range(first, max(first, SLIPPED_MARKS) + 1):
            for at, sign in product(range(len(meant)), (1, -1)):
                number = _shifted(device, meant[at], sign * by)
                yield "marks-off", (*meant[:at], number, *meant[at + 1 :])
        yield from (("order", code) for code in permutations(meant))

    def opening(self, device: Device, line: str | None = None) -> tuple[Message, ...]:
        """Say which way to turn for each number, and how often past it."""
        turns = tuple(
            say(f"mechanism.open-turn-{'right' if at % 2 == 0 else 'left'}", at=at + 1)
            for at in range(device.longest)
        )
        return (say("mechanism.open-dial-clear"), *turns, say("mechanism.open-pull"))

    def scrambling(self, device: Device) -> Message:
        """Say to spin it."""
        return say("mechanism.scramble-dial")

    def failures(self, device: Device) -> tuple[Message, ...]:
        """Say that a number overshot spoils the rest."""
        return (say("mechanism.fail-overshot"), say("mechanism.fail-dial-way"))


def _step(device: Device) -> int:
    return 2 * device.tolerance + 1


def _apart(device: Device, a: str, b: str) -> int:
    gap = abs(int(a) - int(b))
    return min(gap, len(device.positions[0]) - gap)


def _shifted(device: Device, number: str, by: int) -> str:
    return str((int(number) + by) % len(device.positions[0]))


ENTRY = Dial()
