"""A task network as numbers: things had are bits, tasks are rows."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
import numpy.typing as npt

from boxwright.forecast.network import MOST_TASKS, Network, Ways
from boxwright.forecast.parameters import Rules
from boxwright.frozen import frozen_value

Array: TypeAlias = npt.NDArray[Any]

MOST_PUPILS = 60


class TooManyError(ValueError):
    """A game with more tasks, or a group with more pupils, than can be reckoned with."""


@frozen_value
class Plan:
    """What the trials go by.

    `gives`: the bit of what each task gives; `papers`: its sheets. `ways`: masks of what
    must be had, those of one task next to each other, beginning at the rows `starts`.
    `goal`: masks, any of which ends the game. `paces`: by the number of pupils at a task,
    what a second of its work takes them.
    """

    pupils: int
    hints: int
    gives: Array
    ways: Array
    starts: Array
    goal: Array
    seats: Array
    lines: Array
    papers: Array
    locks: Array
    paces: Array
    hint_after_s: float
    hint_leaves: float

    @property
    def tasks(self) -> int:
        """How many tasks there are."""
        return len(self.gives)

    @property
    def single(self) -> bool:
        """Whether there is one way to each task."""
        return len(self.ways) == len(self.gives)


def plan_of(network: Network, rules: Rules) -> Plan:
    """Return `network` as numbers; raises TooManyError where it is too large."""
    _hold(network)
    bits = _Bits(network)
    masks = [bits.masks(task.needs) for task in network.tasks]
    seats = [rules.seats if task.seats is None else task.seats for task in network.tasks]
    most = max([1, *seats])
    return Plan(
        pupils=network.pupils,
        hints=network.hints,
        gives=bits.array([bits.of[task.gives] for task in network.tasks]),
        ways=bits.array([mask for rows in masks for mask in rows]),
        starts=np.cumsum([0, *map(len, masks)])[:-1],
        goal=bits.array(bits.masks(network.goal)),
        seats=np.array(seats, np.uint8),
        lines=np.array([task.hints for task in network.tasks], np.uint8),
        papers=np.array([task.papers for task in network.tasks], np.uint8),
        locks=np.array([task.opens for task in network.tasks], bool),
        paces=np.array([1.0] + [1 / rules.speed(n) for n in range(1, most + 1)]),
        hint_after_s=rules.hint_after_s,
        hint_leaves=rules.hint_leaves,
    )


def _hold(network: Network) -> None:
    for count, most in ((len(network.tasks), MOST_TASKS), (network.pupils, MOST_PUPILS)):
        if count > most:
            raise TooManyError(f"{count} are more than {most}")


class _Bits:
    """A bit for each thing, and one more for what can never be had."""

    def __init__(self, network: Network) -> None:
        self.of = {thing: 1 << at for at, thing in enumerate(network.things)}
        self.never = 1 << len(self.of)
        sizes = ((16, np.uint16), (32, np.uint32), (64, np.uint64))
        self.type = next(kind for size, kind in sizes if len(self.of) < size)

    def masks(self, ways: Ways) -> list[int]:
        """Return the mask of each way; where there is none, one that is never met."""
        return [sum(self.of.get(one, self.never) for one in way) for way in ways] or [self.never]

    def array(self, masks: list[int]) -> Array:
        """Return masks in the least type that holds them."""
        return np.array(masks, self.type)
