"""How long it takes to open a lock by trying, on average and at worst, exactly.

Without repeats, N equally likely codes take (N + 1) / 2 tries on average. Where one try
covers several codes, or symbols differ in number, the search is counted in stretches.
All times are fractions: nothing is rounded before it is shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from boxwright.frozen import frozen_value
from boxwright.game.mechanisms.device import Code, Device
from boxwright.game.mechanisms.making import entry
from boxwright.problems import Message, say

# Assumption, no source: feeling for a wheel that gives takes longer than a plain try.
FEEL_S = Fraction(3)


class Run(NamedTuple):
    """A stretch of a search: so many tries, codes that each opens first, seconds for each."""

    tries: int
    opens: int
    seconds: Fraction


@frozen_value
class Guess:
    """What one who knows `known` needs: tries and seconds, on average and at worst."""

    known: str
    tries: int
    average_tries: Fraction
    worst_s: Fraction
    average_s: Fraction

    @property
    def says(self) -> Message:
        """Say what is known."""
        return say(f"mechanism.guess-{self.known}")


def guesses(
    device: Device,
    *,
    code: Code | None = None,
    length: int | None = None,
    try_s: Fraction | None = None,
) -> tuple[Guess, ...]:
    """Return what a lock withstands: nothing known, one symbol missing, order unknown, felt.

    `length`: symbols that the code is known to have (that of `code` where given; else the
    search goes through all lengths, the shortest first). `try_s`: measured seconds a try.
    """
    size = len(code) if code is not None else length
    found = [everything(device, length=size, try_s=try_s)]
    if device.longest > 1:
        found.append(one_missing(device, length=size, try_s=try_s))
    if code is not None and len(code) > 1:
        found.append(order_unknown(device, code, try_s=try_s))
    if device.cheap and entry(device).can_be_felt and device.longest > 1:
        found.append(felt(device))
    return tuple(found)


def everything(
    device: Device, *, length: int | None = None, try_s: Fraction | None = None
) -> Guess:
    """Nothing is known but, perhaps, the number of symbols."""
    return _guess("nothing", device, entry(device).runs(device, length), try_s)


def one_missing(
    device: Device,
    *,
    length: int | None = None,
    position: int | None = None,
    try_s: Fraction | None = None,
) -> Guess:
    """All is known but the symbol at `position` (from 0; the one with most faces if None)."""
    size = device.longest if length is None else length
    runs = entry(device).one_missing(device, size, position)
    return _guess("all-but-one", device, runs, try_s)


def order_unknown(device: Device, code: Code, *, try_s: Fraction | None = None) -> Guess:
    """The symbols are known, their order is not."""
    return _guess("symbols", device, entry(device).orders(device, code), try_s)


def felt(device: Device) -> Guess:
    """Each wheel of a cheap lock is found by itself, by pulling and feeling.

    Independent wheels: tries add up. No rests: a wheel that is felt is not a wrong code.
    """
    tries = sum(map(len, device.positions))
    average = sum((Fraction(len(faces) + 1, 2) for faces in device.positions), Fraction(0))
    return Guess("felt", tries, average, tries * FEEL_S, average * FEEL_S)


def _guess(
    known: str, device: Device, runs: Iterable[tuple[int, int, int]], try_s: Fraction | None
) -> Guess:
    mechanism = entry(device)
    timed = [
        Run(tries, opens, mechanism.one_try_s(symbols) if try_s is None else try_s)
        for tries, opens, symbols in runs
    ]
    return searched(known, timed, device.wrong_tries if device.rests else 0, device.rest_s)


def searched(known: str, runs: Iterable[Run], wrong_tries: int = 0, rest_s: int = 0) -> Guess:
    """Return what a search takes whose codes are equally likely; every `wrong_tries` it rests.

    The k-th try, if right, comes after k - 1 wrong ones and so after (k - 1) // wrong_tries
    rests.
    """
    before, clock, codes = 0, Fraction(0), 0
    tries, seconds = Fraction(0), Fraction(0)
    for run in runs:
        count = run.tries
        ranks = Fraction(count * (2 * before + count + 1), 2)
        rests = _floors(before + count, wrong_tries) - _floors(before, wrong_tries)
        spent = count * clock + run.seconds * Fraction(count * (count + 1), 2) + rest_s * rests
        tries += run.opens * ranks
        seconds += run.opens * spent
        codes += run.opens * count
        before += count
        clock += run.seconds * count
    worst = clock + rest_s * ((before - 1) // wrong_tries if wrong_tries else 0)
    return Guess(known, before, tries / codes, worst, seconds / codes)


def _floors(count: int, by: int) -> int:
    """Return the sum of j // by for j from 0 up to, but not including, `count`; 0 for by 0."""
    if not by:
        return 0
    quotient, left = divmod(count, by)
    return by * quotient * (quotient - 1) // 2 + left * quotient
