"""A group in the midst of its game: how likely it still finishes, and what a hint would help.

The chances are those of the whole game, held against what was seen so far:

- How slow the group is by itself (z, standard normal before) follows from the clues that it
  has done: the logarithm of what one took through what was expected is a z + e, where a and
  the spread of e are those of solving. Normal and linear, so that z given these is normal.
- A clue that has been at work for so long takes longer than that. Of many draws those are
  kept in which it does; where hardly any are left, the slowest are stretched until they do.
- What was spent on it is taken off find, read, solve and enter, in this order, at the pace of
  the pupils who would be at each of the open clues if they shared them out alike.

How pupils really shared them out nobody notes, and hints given before shorten what is left of
solving as if they had just been given. So this ranks tables; it is no promise to any of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from math import sqrt

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.draws import Draws, Spreads
from boxwright.forecast.network import Network, open_tasks
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array, Plan, plan_of
from boxwright.forecast.timing import Bias, Biases, medians_of
from boxwright.forecast.trials import Times, play
from boxwright.frozen import frozen_value

DRAWN, KEPT, LEAST = 8_000, 1_000, 100
"""Groups drawn, the most that are played, and the fewest."""
SLIGHT = 1e-3
"""A spread below this is none."""
NOTHING = frozenset[str]()


@frozen_value
class Spent:
    """Seconds since a task could be begun, and the hints that were given for it."""

    seconds: float
    hints: int = 0


@frozen_value
class Midway:
    """What is left of a game: tasks not done, hints not given, seconds of play.

    `at_work`: what was spent on tasks that are open; `took`: for each task done, the logarithm
    of what it took through what was expected; `biases` as in a forecast.
    """

    network: Network
    left_s: float
    at_work: Mapping[str, Spent] = field(default_factory=dict)
    took: Sequence[float] = ()
    biases: Biases = field(default_factory=dict)


@frozen_value
class Outlook:
    """The chance to finish in time as things stand, and with a hint for each open task now."""

    chance: float
    with_hint: Mapping[str, float]


def outlook(midway: Midway, parameters: Parameters, dice: Dice) -> Outlook:
    """Return what is to be expected from now on."""
    network, rules = midway.network, parameters.rules
    times = _from_now(midway, parameters, dice)
    chance = _in_time(plan_of(network, rules), times, midway.left_s)
    after = plan_of(replace(network, hints=max(0, network.hints - 1)), rules)
    hinted = {
        name: _in_time(after, _hinted(times, row, rules.hint_leaves), midway.left_s)
        for name, row in _can_be_hinted(midway)
    }
    return Outlook(chance, hinted)


def slowness(took: Sequence[float], parameters: Parameters) -> Bias:
    """Return how slow a group is by itself: mean and standard deviation of z, given `took`."""
    spread, alike = parameters["solve.spread"], parameters["group.alike"]
    signal, noise = spread * sqrt(alike), max(spread * sqrt(1 - alike), SLIGHT)
    precision = 1 + len(took) * (signal / noise) ** 2
    return Bias(signal / noise**2 * sum(took) / precision, 1 / sqrt(precision))


def _from_now(midway: Midway, parameters: Parameters, dice: Dice) -> Times:
    """Draw what each task still takes, for groups that are where this one is."""
    network = midway.network
    draws = Draws(
        network.names,
        medians_of(network, parameters, midway.biases),
        Spreads.of(parameters),
        dice,
        midway.biases,
        slowness(midway.took, parameters),
    )
    times = draws.times(DRAWN, 1)
    rows = [at for at, name in enumerate(network.names) if name in midway.at_work]
    spent = [midway.at_work[network.names[at]] for at in rows]
    pace = _pace(plan_of(network, parameters.rules), network)
    seconds = np.array([one.seconds for one in spent], times.find.dtype)[:, None]
    kept = _kept(times, rows, seconds, pace)
    _spend(kept, rows, seconds, pace)
    for row, one in zip(rows, spent, strict=True):
        kept.solve[row] *= parameters["hint.leaves"] ** one.hints
    return kept


def _pace(plan: Plan, network: Network) -> float:
    """Return what a second of work takes the pupils at each open task, shared out alike."""
    count = max(1, sum(1 for _ in open_tasks(network, NOTHING)))
    pupils = min(max(1, network.pupils // count), len(plan.paces) - 1)
    return float(plan.paces[pupils])


def _kept(times: Times, rows: Sequence[int], seconds: Array, pace: float) -> Times:
    """Return the draws in which all of `rows` take longer than `seconds`."""
    if not rows:
        return Times(*(part[:, :KEPT].copy() for part in times))
    find, read, solve, enter = (part[rows] for part in times)
    took = (find + solve) * pace + read + enter
    slow = (took / np.maximum(seconds, SLIGHT)).min(0)
    columns = np.flatnonzero(slow > 1)[:KEPT]
    if len(columns) < LEAST:
        columns = np.argsort(-slow, kind="stable")[:LEAST]
    kept = Times(*(part[:, columns] for part in times))
    longer = np.maximum(seconds / np.maximum(took[:, columns], SLIGHT), 1)
    for part in kept:
        part[rows] *= longer
    return kept


def _spend(times: Times, rows: Sequence[int], seconds: Array, pace: float) -> None:
    """Take what was spent off the phases, one after the other."""
    left = np.broadcast_to(seconds, (len(rows), times.find.shape[1])).copy()
    for part, each in zip(times, (pace, 1.0, pace, 1.0), strict=True):
        work = np.minimum(part[rows], left / each)
        part[rows] -= work
        left -= work * each


def _can_be_hinted(midway: Midway) -> Iterator[tuple[str, int]]:
    """Yield the open tasks for which there are hints, and their rows."""
    network = midway.network
    rows = {name: at for at, name in enumerate(network.names)}
    for task in open_tasks(network, NOTHING) if network.hints else ():
        spent = midway.at_work.get(task.name)
        if task.hints > (spent.hints if spent else 0):
            yield task.name, rows[task.name]


def _hinted(times: Times, row: int, leaves: float) -> Times:
    solve = times.solve.copy()
    solve[row] *= leaves
    return times._replace(solve=solve)


def _in_time(plan: Plan, times: Times, left_s: float) -> float:
    return float((play(plan, times).finish <= left_s).mean())
