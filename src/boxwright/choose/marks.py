"""Marks: three small drawn signs that name a printing, and three that name a sheet.

They stand in the foot of every printed part, so that Monday's and Tuesday's sheets, or
two boxes' sheets, cannot be mixed. They belong to no puzzle. The drawings are in
`marks.typ`; here are their names and who gets which.
"""

from __future__ import annotations

from collections.abc import Iterable

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.problems import Message, say

SIGNS = (
    "bell",
    "boat",
    "comb",
    "cup",
    "fish",
    "gate",
    "kettle",
    "kite",
    "ladder",
    "lantern",
    "leaf",
    "moon",
    "mushroom",
    "oar",
    "shell",
    "tent",
)
TRIES = 64

Triple = tuple[str, str, str]
NO_SHEET: Triple = ("", "", "")


@frozen_value
class Mark:
    """What the foot of one page shows; `NO_SHEET` where it belongs to no sheet."""

    printing: Triple
    sheet: Triple

    @property
    def signs(self) -> tuple[str, ...]:
        """All six, in the order in which they stand."""
        return self.printing + self.sheet


def draw_triple(dice: Dice) -> Triple:
    """Return three different signs."""
    first, second, third = dice.sample(SIGNS, 3)
    return first, second, third


def sheet_triples(names: Iterable[str], dice: Dice) -> dict[str, Triple]:
    """Return a triple for each of the sheets `names`, no two the same.

    A sheet's triple follows from its own name, whatever other sheets there are, unless
    it would come too close to one given before: as long as there is room, two triples
    differ in two places at least, so that one sign misread never makes another sheet.
    `ValueError` beyond 16 * 16 * 16 names.
    """
    given: dict[str, Triple] = {}
    for name in names:
        if name not in given:
            given[name] = _apart(dice.child("mark", name), set(given.values()))
    return given


def _apart(dice: Dice, taken: set[Triple]) -> Triple:
    for _ in range(TRIES):
        triple = draw_triple(dice)
        if all(differences(triple, other) >= 2 for other in taken):
            return triple
    free = [triple for triple in _all_triples() if triple not in taken]
    if not free:
        raise ValueError("more sheets than marks")
    return dice.pick(free)


def _all_triples() -> Iterable[Triple]:
    return ((a, b, c) for a in SIGNS for b in SIGNS for c in SIGNS)


def differences(one: Triple, other: Triple) -> int:
    """Return in how many places two triples differ."""
    return sum(a != b for a, b in zip(one, other, strict=True))


def say_triple(triple: Triple) -> Message:
    """Say three signs: `kite, bell, oar`."""
    return say("mark.triple", signs=tuple(say(f"mark.{sign}") for sign in triple))
