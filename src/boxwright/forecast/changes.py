"""What a change would change: told from the same chances, so that little of it is luck.

Of all changes, the three best towards a target are proposed: the chance that a group
finishes in time. Where it is less likely than that, what makes the game quicker; where it
is likelier and time would be left over, what makes it longer and still keeps to the target.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from math import sqrt
from typing import Literal

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Chance, spreads, trials_of
from boxwright.forecast.network import Network, Task
from boxwright.forecast.parameters import TARGET, Parameters
from boxwright.forecast.plan import Array

Sort = Literal["more-hints", "easier", "harder", "without", "fewer-pupils"]
QUICKER: Sequence[Sort] = ("more-hints", "easier", "without")
"""What helps a group to finish, the gentlest change first."""
PROPOSED = 3
SURE = 2
"""So many standard errors of a difference are taken for more than luck."""
LEFT_OVER = 2 / 3
"""A game that nine groups of ten end within this share of play leaves time over.

Assumption, no source.
"""


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Difference:
    """By how much a change raises the chance to finish in time, and shortens the middle game.

    `sooner_s`: seconds between the medians; None where one of them is never.
    """

    change: Change
    chance: Chance
    sooner_s: float | None


@dataclass(frozen=True, slots=True)
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
    found: Iterable[Difference],
    parameters: Parameters,
    dice: Dice,
    target: float = TARGET,
) -> tuple[Proposal, ...]:
    """Return the best changes towards `target`, none where the game is as wished.

    One a task, the best first, and each told alone and on top of those before it; where
    there is time to fill, only what keeps to the target so.
    """
    now = _mean(asked, (before <= asked.play_s).astype(float)).value
    is_slow = now < target
    if not is_slow and not _leaves_time(asked, before):
        return ()
    ranked = _quicker(found, now, target) if is_slow else _longer(found, now, target)
    made: list[Change] = []
    told: list[Proposal] = []
    for one in ranked:
        finish = _finish(asked, [*made, one.change], parameters, dice)
        chance = _mean(asked, (finish <= asked.play_s).astype(float))
        if not is_slow and chance.value < target:
            continue
        made.append(one.change)
        told.append(Proposal(one, chance))
        if len(told) == PROPOSED:
            break
    return tuple(told)


def _leaves_time(asked: Asked, before: Array) -> bool:
    slow = spreads(before[None])[0].p90
    return slow is not None and slow < LEFT_OVER * asked.play_s


def _quicker(found: Iterable[Difference], now: float, target: float) -> list[Difference]:
    """Return what helps more than by luck: what reaches the target, the gentlest first."""

    def rank(one: Difference) -> tuple[bool, int, float]:
        is_enough = now + one.chance.value >= target
        gentle = QUICKER.index(one.change.sort) if is_enough else 0
        return not is_enough, gentle, -one.chance.value

    helping = (
        one
        for one in found
        if one.change.sort in QUICKER and one.chance.value > SURE * one.chance.error
    )
    return _one_a_task(sorted(helping, key=rank))


def _longer(found: Iterable[Difference], now: float, target: float) -> list[Difference]:
    """Return what makes the game longer and keeps to the target, the most time first."""
    filling = [
        one
        for one in found
        if one.change.sort == "harder"
        and now + one.chance.value >= target
        and (one.sooner_s or 0) < 0
    ]
    return _one_a_task(sorted(filling, key=lambda one: one.sooner_s or 0))


def _one_a_task(ranked: Iterable[Difference]) -> list[Difference]:
    """Return the first of those that are about the same task."""
    first: dict[str | None, Difference] = {}
    for one in ranked:
        first.setdefault(one.change.task, one)
    return list(first.values())
