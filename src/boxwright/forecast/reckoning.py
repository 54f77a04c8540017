"""How a forecast is reckoned: groups play, and what they met is counted.

Trials are groups, as many of each class as play at once, so that the chance that all
finish counts in that groups of one class are alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, sqrt

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Chance, ClueForecast, Forecast, Spread
from boxwright.forecast.draws import Draws, Spreads
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array, plan_of
from boxwright.forecast.timing import medians_of
from boxwright.forecast.trials import Trials, play

BLOCK = 10_000
"""Groups that play in step: as many as a processor keeps at hand."""
SHARES = (0.1, 0.5, 0.9)


def forecast(asked: Asked, parameters: Parameters, dice: Dice) -> Forecast:
    """Return what is to be expected of a game."""
    return told(asked, trials_of(asked, parameters, dice))


def told(asked: Asked, found: Trials) -> Forecast:
    """Return what `found` tells of the game that was played so often."""
    in_time = _in_time(asked, found)
    locks = [at for at, task in enumerate(asked.network.tasks) if task.opens]
    return Forecast(
        trials=len(found.finish),
        groups=asked.groups,
        play_s=asked.play_s,
        one=_mean(in_time.mean(1)),
        all=_mean(np.all(in_time, axis=1)),
        finish=spreads(found.finish[None])[0],
        first_lock=spreads(found.closed[locks].min(0, initial=np.inf)[None])[0],
        hints=float(found.hints.sum(dtype=np.int64)) / len(found.finish),
        hints_asked=_nine_of_ten(found.hints.sum(0, dtype=np.int64)),
        no_hint_left=_no_hint_left(asked.network, found),
        idle=_idle(found, asked.network.pupils),
        papers=_nine_of_ten(found.loose),
        clues=tuple(_clues(asked.network, found)),
    )


def trials_of(asked: Asked, parameters: Parameters, dice: Dice) -> Trials:
    """Play as many groups as are asked for, in whole classes, block by block."""
    network, groups = asked.network, asked.groups
    plan = plan_of(network, parameters.rules)
    medians = medians_of(network, parameters, asked.biases)
    draws = Draws(network.names, medians, Spreads.of(parameters), dice, asked.biases)
    return joined([play(plan, draws.times(size, groups)) for size in blocks(asked.trials, groups)])


def blocks(trials: int, groups: int) -> Iterator[int]:
    """Yield the classes of each block; one class at least."""
    left, most = max(1, trials // groups), max(1, BLOCK // groups)
    while left > 0:
        yield min(left, most)
        left -= most


def joined(parts: Sequence[Trials]) -> Trials:
    """Return blocks side by side, and counts summed."""
    if len(parts) == 1:
        return parts[0]
    return Trials(
        finish=np.concatenate([one.finish for one in parts]),
        opened=np.concatenate([one.opened for one in parts], axis=1),
        closed=np.concatenate([one.closed for one in parts], axis=1),
        holds_up=np.sum([one.holds_up for one in parts], axis=0),
        hints=np.concatenate([one.hints for one in parts], axis=1),
        idle_s=np.concatenate([one.idle_s for one in parts]),
        loose=np.concatenate([one.loose for one in parts]),
    )


def spreads(seconds: Array) -> tuple[Spread, ...]:
    """Return the spread of each row: numbers that came up, by the nearest rank."""
    ranks = [rank_of(share, seconds.shape[1]) for share in SHARES]
    at = np.partition(seconds, ranks, axis=1)[:, ranks].astype(float)
    return tuple(Spread(*(one if one < np.inf else None for one in row)) for row in at.tolist())


def rank_of(share: float, count: int) -> int:
    """Return which of `count` numbers in order has a share of them at or below it, from 0."""
    return ceil(share * count) - 1


def _no_hint_left(network: Network, found: Trials) -> float:
    """Return in which share of games all hints were given; 0 where none are to be had."""
    given = found.hints.sum(0, dtype=np.int64)
    return float((given >= network.hints).mean()) if network.hints else 0.0


def _nine_of_ten(counts: Array) -> int:
    """Return what nine groups of ten have at most."""
    rank = rank_of(SHARES[-1], len(counts))
    return int(np.partition(counts, rank)[rank])


def _in_time(asked: Asked, found: Trials) -> Array:
    """Tell which groups finished in time: classes are rows."""
    in_time: Array = found.finish <= asked.play_s
    return in_time.reshape(-1, asked.groups)


def _mean(values: Array) -> Chance:
    """Return the mean of what came up class by class, and its standard error.

    Where all classes fared alike that would be nought, so one more that finished and one
    more that did not are thought to it.
    """
    count, mean, spread = len(values), float(values.mean()), float(values.std())
    thought = (mean * count + 1) / (count + 2)
    error = spread / sqrt(count) if spread else sqrt(thought * (1 - thought) / (count + 2))
    return Chance(mean, error)


def _idle(found: Trials, pupils: int) -> float | None:
    """Return the share of pupils' time with nothing to do, of the groups that ended."""
    ended = np.isfinite(found.finish)
    spent = float(found.finish[ended].sum(dtype=float)) * pupils
    return float(found.idle_s[ended].sum(dtype=float)) / spent if spent else None


def _clues(network: Network, found: Trials) -> Iterator[ClueForecast]:
    groups = len(found.finish)
    ended = max(1, int(np.isfinite(found.finish).sum()))
    hints = found.hints.sum(1, dtype=np.int64) / groups
    opens, closes = spreads(found.opened), spreads(found.closed)
    for at, name in enumerate(network.names):
        holds_up = float(found.holds_up[at]) / ended
        yield ClueForecast(name, opens[at], closes[at], holds_up, float(hints[at]))
