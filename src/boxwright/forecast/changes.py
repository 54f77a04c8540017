"""What a change would change: told from the same chances, so that little of it is luck."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import sqrt
from typing import Literal

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Chance, trials_of
from boxwright.forecast.network import Network, Task
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array

Sort = Literal["fewer-pupils", "more-hints", "easier", "without"]


@dataclass(frozen=True, slots=True)
class Change:
    """Another way to play, and the clue that it is about; `network` is all of it."""

    sort: Sort
    network: Network
    task: str | None = None


@dataclass(frozen=True, slots=True)
class Difference:
    """By how much a change raises the chance to finish in time, and shortens the middle game.

    `sooner_s`: seconds between the medians; None where one of them is never.
    """

    sort: Sort
    task: str | None
    chance: Chance
    sooner_s: float | None


def changes(network: Network, easier: Iterable[Task] = ()) -> Iterator[Change]:
    """Yield a pupil less, a hint more, each of the `easier` tasks, and each clue left out."""
    if network.pupils > 1:
        yield Change("fewer-pupils", replace(network, pupils=network.pupils - 1))
    yield Change("more-hints", replace(network, hints=network.hints + 1))
    for task in easier:
        yield Change("easier", network.changed(task), task.name)
    for task in network.tasks:
        yield Change("without", network.without(task.name), task.name)


def differences(
    asked: Asked, made: Iterable[Change], parameters: Parameters, dice: Dice
) -> tuple[Difference, ...]:
    """Return what each change would change."""
    before = trials_of(asked, parameters, dice).finish
    return tuple(
        _difference(
            asked,
            one,
            before,
            trials_of(replace(asked, network=one.network), parameters, dice).finish,
        )
        for one in made
    )


def _difference(asked: Asked, change: Change, before: Array, after: Array) -> Difference:
    gain = (after <= asked.play_s).astype(float) - (before <= asked.play_s)
    by_class = gain.reshape(-1, asked.groups).mean(1)
    error = float(by_class.std()) / sqrt(len(by_class))
    return Difference(
        change.sort, change.task, Chance(float(by_class.mean()), error), _sooner(before, after)
    )


def _sooner(before: Array, after: Array) -> float | None:
    medians = [float(np.partition(one, len(one) // 2)[len(one) // 2]) for one in (before, after)]
    return medians[0] - medians[1] if max(medians) < np.inf else None
