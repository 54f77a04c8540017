"""Chance: what each task takes each group, in seconds.

Times are lognormal about their medians. A group that is strong in one thing is strong in
others: part of what makes it quick to read and to solve is the same for all its tasks,
and part of that is the same for all groups of a class. Each task has dice of its own, so
that one task more, or another group, changes no other's draws, and what a change changes
can be told from the same chances.

Where it is doubtful how long a clue takes, it is so for all groups of a class alike: that is
drawn once for each class. Clues that are doubtful together, as those of one kind, are drawn so.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log, sqrt

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array
from boxwright.forecast.timing import Bias, Biases, Medians
from boxwright.forecast.trials import Times
from boxwright.frozen import frozen_value

REAL = np.float32
ANYONE = Bias(0.0, 1.0)
"""A group of which nothing is known."""
ENTRY = 3
"""The phase in which nothing is found, read or solved any more."""


@frozen_value
class Spreads:
    """How much times differ, in their logarithms, and which share of that is whose."""

    find: float
    read: float
    solve: float
    enter: float
    group: float
    of_class: float

    @classmethod
    def of(cls, parameters: Parameters) -> Spreads:
        """Return what the parameters say."""
        return cls(
            find=parameters["find.spread"],
            read=parameters["read.spread"],
            solve=parameters["solve.spread"],
            enter=parameters["enter.spread"],
            group=parameters["group.alike"],
            of_class=parameters["class.alike"],
        )


def generator(dice: Dice) -> np.random.Generator:
    """Return NumPy's chance, seeded from `dice`."""
    return np.random.Generator(np.random.SFC64(dice.below(1 << 64)))


class Draws:
    """Draws times block by block, always the same ones from the same dice."""

    def __init__(
        self,
        names: Sequence[str],
        medians: Sequence[Medians],
        spreads: Spreads,
        dice: Dice,
        biases: Biases | None = None,
        slow: Bias = ANYONE,
    ) -> None:
        """Draw about `medians`, which have the biases' means in them already.

        `slow`: how slow the groups are by themselves, where something is known of that.
        """
        self.medians, self.spreads, self.slow = medians, spreads, slow
        known = biases or {}
        rows = {name: at for at, name in enumerate(names) if name in known}
        self.doubts = [(at, known[name].doubts_of(name)) for name, at in rows.items()]
        chances = dict.fromkeys(chance for _, doubts in self.doubts for chance in doubts)
        self.chances = {name: generator(dice.child("doubt", name)) for name in chances}
        self.tasks = [generator(dice.child("task", name)) for name in names]
        self.groups, self.classes = generator(dice.child("groups")), generator(dice.child("class"))

    def times(self, classes: int, groups: int) -> Times:
        """Return times for `groups` groups in each of `classes` classes, side by side."""
        strength = self.strength(classes, groups)
        shape = (4, len(self.tasks), classes * groups)
        drawn = np.empty(shape, REAL)
        enter = np.empty(shape[1:], REAL)
        for at, (chance, one) in enumerate(zip(self.tasks, self.medians, strict=True)):
            for phase in drawn[:, at]:
                chance.standard_normal(dtype=REAL, out=phase)
            enter[at] = _wrong_s(one, chance.standard_exponential(shape[2], dtype=REAL))
        find, read, solve, entry = drawn
        self._spread(find, [one.find for one in self.medians], self.spreads.find, None)
        self._spread(read, [one.read for one in self.medians], self.spreads.read, strength)
        self._spread(solve, [one.solve for one in self.medians], self.spreads.solve, strength)
        self._spread(entry, [one.enter for one in self.medians], self.spreads.enter, None)
        entry += enter
        self._doubt(drawn[:ENTRY], classes, groups)
        return Times(find, read, solve, entry)

    def _doubt(self, drawn: Array, classes: int, groups: int) -> None:
        """Make clues that are doubtful longer or shorter, for a whole class alike."""
        chances = {
            name: chance.standard_normal(classes, dtype=REAL)
            for name, chance in self.chances.items()
        }
        for at, doubts in self.doubts:
            if doubts:
                of_class = sum(chances[name] * REAL(part) for name, part in doubts.items())
                drawn[:, at] *= np.repeat(np.exp(of_class), groups)

    def strength(self, classes: int, groups: int) -> Array:
        """Return how slow each group is by itself: normal, with the share of its class in it."""
        mean, sd = REAL(self.slow.mean), REAL(self.slow.sd)
        alike = self.spreads.of_class
        of_class = self.classes.standard_normal((classes, 1), dtype=REAL)
        own = self.groups.standard_normal((classes, groups), dtype=REAL)
        drawn = (of_class * REAL(sqrt(alike)) + own * REAL(sqrt(1 - alike))).ravel()
        return drawn * sd + mean

    def _spread(
        self, drawn: Array, medians: Sequence[float], spread: float, strength: Array | None
    ) -> None:
        """Turn normal numbers into seconds, in place."""
        alike = 0.0 if strength is None else self.spreads.group
        drawn *= REAL(spread * sqrt(1 - alike))
        if strength is not None:
            drawn += strength * REAL(spread * sqrt(alike))
        np.exp(drawn, out=drawn)
        drawn *= np.array(medians, REAL)[:, None]


def _wrong_s(one: Medians, drawn: Array) -> Array:
    """Return what wrong tries cost: so many that each more is as likely as the first."""
    if not one.wrong:
        return np.zeros_like(drawn)
    tries = np.floor(drawn / REAL(-log(one.wrong)))
    seconds: Array = tries * REAL(one.again)
    if one.wrong_tries:
        seconds += np.floor(tries / one.wrong_tries) * REAL(one.rest)
    return seconds
