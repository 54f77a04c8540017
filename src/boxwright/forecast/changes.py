"""What a change would change: told from the same chances, so that little of it is luck.

Of all changes, the three best towards a target are proposed: the chance that a group
finishes in time. Where it is less likely than that, what makes the game quicker; where it
is likelier and time would be left over, what makes it longer and still keeps to the target.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import reduce
from math import sqrt
from typing import Literal

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Chance
from boxwright.forecast.network import Network, Task
from boxwright.forecast.parameters import TARGET, Parameters
from boxwright.forecast.plan import Array
from boxwright.forecast.reckoning import spreads, trials_of
from boxwright.frozen import frozen_value

Sort = Literal["more-hints", "easier", "harder", "without", "fewer-pupils"]
GENTLE: Sequence[Sort] = ("more-hints", "easier")
"""What helps a group to finish and leaves no clue out."""
PROPOSED = 3
SURE = 2
"""So many standard errors of a difference are taken for more than luck."""
LEFT_OVER = 2 / 3
"""A game that nine groups of ten end within this share of play leaves time over.

Assumption, no source.
"""


@frozen_value
class Change:
    """Another way to play; `task` is what it is about, `made` that task as it would be then."""

    sort: Sort
    task: str | None = None
    made: Task | None = None

    def applied(self, network: Network) -> Network:
        """Return `network` as it is played then; as it is where the task is gone already."""
        if self.sort == "fewer-pupils":
            return replace(network, pupils=network.pupils - 1)
        if self.sort == "more-hints":
            return replace(network, hints=network.hints + 1)
        if self.task not in network.names:
            return network
        if self.made is not None:
            return network.changed(self.made)
        return network.without(self.task)


@frozen_value
class Difference:
    """By how much a change raises the chance to finish in time, and shortens the middle game.

    `sooner_s`: seconds between the medians; None where one of them is never.
    """

    change: Change
    chance: Chance
    sooner_s: float | None


@frozen_value
class Proposal:
    """A change proposed: what it does by itself, and the chance with it and those before it."""

    alone: Difference
    together: Chance


def changes(
    network: Network, easier: Iterable[Task] = (), harder: Iterable[Task] = ()
) -> Iterator[Change]:
    """Yield a pupil less, a hint more, each easier and each harder task, each clue left out."""
    if network.pupils > 1:
        yield Change("fewer-pupils")
    yield Change("more-hints")
    yield from (Change("easier", task.name, task) for task in easier)
    yield from (Change("harder", task.name, task) for task in harder)
    yield from (Change("without", task.name) for task in network.tasks)


def differences(
    asked: Asked, before: Array, made: Iterable[Change], parameters: Parameters, dice: Dice
) -> tuple[Difference, ...]:
    """Return what each change would change; `before`: seconds to the end, from the same dice."""
    return tuple(_difference(asked, one, before, parameters, dice) for one in made)


def _difference(
    asked: Asked, change: Change, before: Array, parameters: Parameters, dice: Dice
) -> Difference:
    after = _finish(asked, [change], parameters, dice)
    chance = _mean(asked, (after <= asked.play_s).astype(float) - (before <= asked.play_s))
    return Difference(change, chance, _sooner(before, after))


def _finish(asked: Asked, made: Sequence[Change], parameters: Parameters, dice: Dice) -> Array:
    network = reduce(lambda so_far, change: change.applied(so_far), made, asked.network)
    return trials_of(replace(asked, network=network), parameters, dice).finish


def _mean(asked: Asked, values: Array) -> Chance:
    """Return a mean over classes, whose groups are alike, and its standard error."""
    by_class = values.reshape(-1, asked.groups).mean(1)
    return Chance(float(by_class.mean()), float(by_class.std()) / sqrt(len(by_class)))


def _sooner(before: Array, after: Array) -> float | None:
    then, now = (spreads(one[None])[0].p50 for one in (before, after))
    return None if then is None or now is None else then - now


def proposals(
    asked: Asked,
    before: Array,
    found: Sequence[Difference],
    parameters: Parameters,
    dice: Dice,
    target: float = TARGET,
) -> tuple[Proposal, ...]:
    """Return the best changes towards `target`, none where the game is as wished.

    One a task, the best first, each told alone and on top of those before it. A clue is left
    out only where the gentler changes together do not reach the target; where there is time
    to fill, only what keeps to the target is proposed.
    """
    chances = _Chances(asked, parameters, dice)
    now = chances.mean(before)
    if now < target:
        gentle = chances.adding(_quicker(found, GENTLE))
        enough = gentle and gentle[-1].together.value >= target
        return gentle if enough else chances.adding(_quicker(found, (*GENTLE, "without")))
    if not _leaves_time(asked, before):
        return ()
    return chances.adding(_longer(found, target - now), target)


@frozen_value
class _Chances:
    """What is asked of which chances."""

    asked: Asked
    parameters: Parameters
    dice: Dice

    def mean(self, finish: Array) -> float:
        """Return the chance to finish in time."""
        return float((finish <= self.asked.play_s).mean())

    def adding(self, ranked: Iterable[Difference], least: float = 0.0) -> tuple[Proposal, ...]:
        """Return the first few, each on top of those before it; none with less than `least`."""
        made: list[Change] = []
        told: list[Proposal] = []
        for one in ranked:
            finish = _finish(self.asked, [*made, one.change], self.parameters, self.dice)
            if self.mean(finish) >= least:
                made.append(one.change)
                in_time = (finish <= self.asked.play_s).astype(float)
                told.append(Proposal(one, _mean(self.asked, in_time)))
            if len(told) == PROPOSED:
                break
        return tuple(told)


def _leaves_time(asked: Asked, before: Array) -> bool:
    slow = spreads(before[None])[0].p90
    return slow is not None and slow < LEFT_OVER * asked.play_s


def _quicker(found: Iterable[Difference], sorts: Collection[Sort]) -> list[Difference]:
    """Return what helps more than by luck, the most first."""
    helping = (
        one
        for one in found
        if one.change.sort in sorts and one.chance.value > SURE * one.chance.error
    )
    return _one_a_task(sorted(helping, key=lambda one: -one.chance.value))


def _longer(found: Iterable[Difference], least: float) -> list[Difference]:
    """Return what takes more time and no more of the chance than `least`, the most first."""
    filling = [
        one
        for one in found
        if one.change.sort == "harder" and one.chance.value >= least and (one.sooner_s or 0) < 0
    ]
    return _one_a_task(sorted(filling, key=lambda one: one.sooner_s or 0))


def _one_a_task(ranked: Iterable[Difference]) -> list[Difference]:
    """Return the first of those that are about the same task."""
    first: dict[str | None, Difference] = {}
    for one in ranked:
        first.setdefault(one.change.task, one)
    return list(first.values())
