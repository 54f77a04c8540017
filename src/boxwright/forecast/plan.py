"""A task network as numbers: things had are bits, tasks are bits and rows."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_
from typing import Any, TypeAlias

import numpy as np
import numpy.typing as npt

from boxwright.forecast.network import MOST_TASKS, Network, TooManyError, Ways
from boxwright.forecast.parameters import Rules
from boxwright.frozen import frozen_value

Array: TypeAlias = npt.NDArray[Any]

MOST_PUPILS = 60
WIDTH = 11
"""Bits that are looked up at once: a table of them all stays at a processor's hand."""


@frozen_value
class Lookup:
    """What follows from a set of bits, where it is put together from what some of them say.

    `parts`: for the lowest WIDTH bits, the next and so on, a value for each of their patterns;
    `join` puts these together.
    """

    parts: Array
    join: np.ufunc

    def of(self, bits: Array) -> Array:
        """Return what follows from each of `bits`."""
        found: Array = self.parts[0].take(bits & (2**WIDTH - 1))
        for at, part in enumerate(self.parts[1:], 1):
            self.join(found, part.take(bits >> (at * WIDTH) & (2**WIDTH - 1)), out=found)
        return found


@frozen_value
class Plan:
    """What the trials go by.

    `gives`: the bit of what each task gives; `rivals`: whether two tasks give the same.
    `open`: by the things had, which tasks can be worked at, each table for one way to each
    of them. `goal`: things any of which end the game. `papers`: by the tasks that are open,
    their sheets. `paces`: by the number of pupils at a task, what a second of its work takes
    them. `needs`: for each task the rows, of which one of each inner list must be done, of
    each way to it.
    """

    pupils: int
    hints: int
    gives: Array
    rivals: bool
    open: tuple[Lookup, ...]
    goal: Array
    needs: tuple[tuple[tuple[tuple[int, ...], ...], ...], ...]
    seats: Array
    lines: Array
    papers: Lookup | None
    paces: Array
    hint_after_s: float
    hint_leaves: float

    @property
    def tasks(self) -> int:
        """How many tasks there are."""
        return len(self.gives)

    def open_now(self, had: Array) -> Array:
        """Return which tasks can be worked at with each of `had`, as bits."""
        found = self.open[0].of(had)
        for other in self.open[1:]:
            found |= other.of(had)
        return found


def plan_of(network: Network, rules: Rules) -> Plan:
    """Return `network` as numbers; raises TooManyError where it is too large."""
    _hold(network)
    things, tasks = _Bits(network.things), _Bits(network.names)
    gives = things.array([things.of[task.gives] for task in network.tasks])
    seats = [rules.seats if task.seats is None else task.seats for task in network.tasks]
    most = max([1, *seats])
    papers = np.array([task.papers for task in network.tasks], np.uint8)
    return Plan(
        pupils=network.pupils,
        hints=network.hints,
        gives=gives,
        rivals=len(network.things) < len(network.tasks),
        open=_open(network, things, tasks, gives),
        goal=things.array(things.masks(network.goal)),
        needs=tuple(_rows(network, task.needs) for task in network.tasks),
        seats=np.minimum(np.array(seats, np.uint8), network.pupils),
        lines=np.array([task.hints for task in network.tasks], np.uint8),
        papers=_sums(papers, tasks) if papers.any() else None,
        paces=np.array([1.0] + [1 / rules.speed(n) for n in range(1, most + 1)]),
        hint_after_s=rules.hint_after_s,
        hint_leaves=rules.hint_leaves,
    )


def _hold(network: Network) -> None:
    for count, most in ((len(network.tasks), MOST_TASKS), (network.pupils, MOST_PUPILS)):
        if count > most:
            raise TooManyError(f"{count} are more than {most}")


class _Bits:
    """A bit for each name, and one more for what can never be had."""

    def __init__(self, names: Sequence[str]) -> None:
        self.of = {name: 1 << at for at, name in enumerate(names)}
        self.never = 1 << len(self.of)
        sizes = ((16, np.uint16), (32, np.uint32), (64, np.uint64))
        self.type = next(kind for size, kind in sizes if len(self.of) < size)

    def masks(self, ways: Ways) -> list[int]:
        """Return the mask of each way; where there is none, one that is never met."""
        masks = [reduce(or_, (self.of.get(one, self.never) for one in way), 0) for way in ways]
        return masks or [self.never]

    def array(self, masks: Sequence[int]) -> Array:
        """Return masks in the least type that holds them."""
        return np.array(masks, self.type)

    def parts(self, masks: Sequence[int]) -> Array:
        """Return each WIDTH bits of `masks`, the lowest first: rows of parts, columns of masks."""
        count = -(-(len(self.of) + 1) // WIDTH)
        low = 2**WIDTH - 1
        parts = [[mask >> (at * WIDTH) & low for mask in masks] for at in range(count)]
        return np.array(parts, np.uint16).reshape(count, len(masks))


def _open(network: Network, things: _Bits, tasks: _Bits, gives: Array) -> tuple[Lookup, ...]:
    """Return, for the first way to each task, the second and so on, which are open by it."""
    ways = [things.masks(task.needs) for task in network.tasks]
    layers = range(max(map(len, ways), default=1))
    given = things.parts(gives.tolist())
    row = tasks.array([1 << at for at in range(len(ways))])
    found = []
    for layer in layers:
        needs = things.parts([way[layer] if layer < len(way) else things.never for way in ways])
        met = [_met(need, give, row) for need, give in zip(needs, given, strict=True)]
        found.append(Lookup(np.array(met, tasks.type), np.bitwise_and))
    return tuple(found)


def _met(needs: Array, gives: Array, row: Array) -> Array:
    """Return by each pattern of things which tasks have all they need, and are still to do."""
    had = np.arange(2**WIDTH, dtype=np.uint16)[:, None]
    met = ((needs & ~had) == 0) & ((gives & had) == 0)
    found: Array = np.bitwise_or.reduce(met * row, axis=1, initial=0)
    return found


def _sums(papers: Array, tasks: _Bits) -> Lookup:
    """Return by each set of tasks how many papers they have."""
    rows = tasks.parts([1 << at for at in range(len(papers))])
    patterns = np.arange(2**WIDTH, dtype=np.uint16)[:, None]
    parts = [((patterns & row) != 0) @ papers for row in rows]
    return Lookup(np.array(parts, np.uint8), np.add)


def _rows(network: Network, needs: Ways) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the rows that give what each way needs; ways to which a thing is lacking are none."""
    givers: dict[str, tuple[int, ...]] = {}
    for at, task in enumerate(network.tasks):
        givers[task.gives] = (*givers.get(task.gives, ()), at)
    ways = (tuple(givers.get(thing, ()) for thing in sorted(way)) for way in needs)
    return tuple(way for way in ways if all(way))
