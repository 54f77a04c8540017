"""A card of setting up or resetting as a list to be ticked: what there is, and what is left."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from boxwright.choose.gear import Gear
from boxwright.choose.setting_up import reset, set_up
from boxwright.choose.steps import Act, Step, Tick
from boxwright.live.events import List

FOR_ALL: frozenset[Act] = frozenset({"read", "keep"})
"""Done once for the whole class, however many printed sets it plays."""

PLANS: Mapping[List, Callable[[Gear], tuple[Step, ...]]] = {"set-up": set_up, "reset": reset}


@dataclass(frozen=True, slots=True)
class Box:
    """One box to tick: of which step, with which gear."""

    gear: Gear
    step: Step
    tick: Tick


@dataclass(frozen=True, slots=True)
class Left:
    """How many steps are done, of how many, and the seconds that the others take."""

    done: int
    steps: int
    seconds: int

    @property
    def minutes(self) -> int:
        """Whole minutes left: at least one as long as something is to be done."""
        return 0 if self.done == self.steps else max(1, round(self.seconds / 60))


@dataclass(frozen=True)
class Checklist:
    """One list for all printed sets of a play, each with its gear."""

    list: List
    gears: tuple[Gear, ...]

    @cached_property
    def steps(self) -> tuple[tuple[Gear, tuple[Step, ...]], ...]:
        """The steps of each printed set, in order; those for the whole class with the first."""
        first, *others = [(gear, PLANS[self.list](gear)) for gear in self.gears]
        own = [(gear, [one for one in steps if one.act not in FOR_ALL]) for gear, steps in others]
        return (first, *((gear, tuple(steps)) for gear, steps in own))

    @cached_property
    def boxes(self) -> Mapping[str, Box]:
        """All boxes to tick, by their ids."""
        return {box.tick.id: box for box in self._boxes()}

    def _boxes(self) -> Iterator[Box]:
        for gear, steps in self.steps:
            for step in steps:
                yield from (Box(gear, step, tick) for tick in step.ticks)

    def left(self, ticked: Container[str]) -> Left:
        """Return what is left once all of `ticked` is done; a step is done with its last box."""
        steps = [step for _, steps in self.steps for step in steps]
        to_do = [[tick for tick in step.ticks if tick.id not in ticked] for step in steps]
        seconds = sum(tick.seconds for ticks in to_do for tick in ticks)
        return Left(sum(not ticks for ticks in to_do), len(steps), seconds)
