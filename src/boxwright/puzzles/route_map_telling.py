"""What stands at each place, and how the list tells the stops: so that each line fits one alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import Level
from boxwright.puzzles.route_map_sheet import BUILDINGS, MOST_THINGS, THINGS, Sort, Stop, Thing

PASSES = 400


class TellingError(Exception):
    """No places were found that the list can tell apart: a fault of this module."""


@frozen_value
class Looks:
    """What is seen at one place."""

    sort: Sort
    things: tuple[Thing, ...]

    def fit(self, stop: Stop) -> bool:
        """Tell whether a line of the list can mean this place."""
        return (
            stop.sort in (None, self.sort)
            and set(stop.has) <= set(self.things)
            and not set(stop.lacks) & set(self.things)
        )


Form = Callable[[Looks], Iterator[Stop]]


def _building_with(looks: Looks) -> Iterator[Stop]:
    for thing in looks.things:
        yield Stop(sort=looks.sort, has=(thing,))


def _two_things(looks: Looks) -> Iterator[Stop]:
    for pair in combinations(looks.things, 2):
        yield Stop(has=pair)


def _building_without(looks: Looks) -> Iterator[Stop]:
    for thing in THINGS:
        if thing not in looks.things:
            yield Stop(sort=looks.sort, lacks=(thing,))


def _thing_without(looks: Looks) -> Iterator[Stop]:
    for has in looks.things:
        for lacks in THINGS:
            if lacks not in looks.things:
                yield Stop(has=(has,), lacks=(lacks,))


# The forms of a level, each with the least share of stops that must be told in it.
FORMS: dict[Level, tuple[Form, ...]] = {
    "ordinary": (_building_with,),
    "harder": (_two_things,),
    "hardest": (_building_without, _thing_without, _two_things),
}


def told(stops: int, others: int, level: Level, dice: Dice) -> tuple[list[Looks], list[Stop]]:
    """Return the looks of `stops` and `others` places, in that order, and the list of stops.

    Each line of the list fits its own place and no other. Places change their looks one at
    a time, and a change stays that leaves no more stops untold.
    """
    looks = [_any_looks(dice) for _ in range(stops + others)]
    lines = _lines(stops, looks, level, dice)
    for _ in range(PASSES):
        lost = [at for at, line in enumerate(lines) if line is None]
        if not lost:
            return looks, [line for line in lines if line is not None]
        trial = list(looks)
        for at in (dice.pick(lost), dice.below(len(looks))):
            trial[at] = _any_looks(dice)
        after = _lines(stops, trial, level, dice)
        if after.count(None) <= len(lost):
            looks, lines = trial, after
    raise TellingError(f"{stops} stops, {others} others, {level}")


def _any_looks(dice: Dice) -> Looks:
    return Looks(dice.pick(BUILDINGS), tuple(dice.sample(THINGS, dice.between(1, MOST_THINGS))))


def _lines(stops: int, looks: Sequence[Looks], level: Level, dice: Dice) -> list[Stop | None]:
    return [_line(at, looks, level, dice) for at in range(stops)]


def _line(at: int, looks: Sequence[Looks], level: Level, dice: Dice) -> Stop | None:
    """Return a line that fits place `at` alone, with as many look-alikes as can be had.

    Earlier forms of a level go before later ones.
    """
    for form in FORMS[level]:
        fitting = [
            stop
            for stop in form(looks[at])
            if [at] == [place for place, one in enumerate(looks) if one.fit(stop)]
        ]
        if fitting:
            return max(dice.shuffled(fitting), key=lambda stop: look_alikes(stop, looks))
    return None


def look_alikes(stop: Stop, looks: Sequence[Looks]) -> int:
    """Count the places that share a part of what a line tells, and not all of it."""
    return sum(not one.fit(stop) and any(one.fit(part) for part in parts(stop)) for one in looks)


def parts(stop: Stop) -> Iterator[Stop]:
    """Yield what a line tells without what must not be there, and with one thing less."""
    if stop.lacks:
        yield replace(stop, lacks=())
        return
    if stop.sort is not None:
        yield replace(stop, sort=None)
    for thing in stop.has:
        rest = tuple(one for one in stop.has if one != thing)
        yield replace(stop, has=rest)
