"""Which table a hint would help most just now: told in words, and the teacher decides.

Each table's game is played on in thought from where it stands (`forecast.midway`), once as it
is and once with a hint for each clue that is open. What is told is a rank and no promise: no
share of anything is shown, to nobody. A table that got on a moment ago is left in peace: a hint
is for one that has opened and found nothing for as long as the forecast has them wait for one
(`hint.after`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import log
from typing import TYPE_CHECKING, Literal

from boxwright.build.forecasting import CHANCES, expected_of
from boxwright.build.task_network import AsWished, network_of
from boxwright.choose.edition import Edition
from boxwright.dice import Dice
from boxwright.forecast.network import Network, TooManyError
from boxwright.forecast.parameters import TARGET, Parameters
from boxwright.live.clock import Instant
from boxwright.live.noted import Group, State
from boxwright.live.observed import of_group
from boxwright.live.table import Table, table_of

if TYPE_CHECKING:
    from boxwright.forecast.midway import Midway

LEAST_GAIN = 0.05
"""A hint that helps less is none to speak of. Assumption, no source."""
LOST = 0.1
"""A table less likely to finish than this needs more than a hint. Assumption, no source."""


@dataclass(frozen=True, slots=True)
class Help:
    """A hint for a clue of a table; a table that needs more; or none that needs anything."""

    sort: Literal["hint", "late", "none"]
    group: str = ""
    name: str = ""
    clue: str = ""


@dataclass(frozen=True, slots=True)
class _Stand:
    """How likely a table finishes, the clue for which a hint helps most, and how much."""

    group: Group
    chance: float
    clue: str
    gain: float


class Helper:
    """Looks at the tables of one session; what follows from its editions is worked out once."""

    def __init__(self, editions: Mapping[str, Edition], parameters: Parameters) -> None:
        """Take the editions by group."""
        self.plays = {group: _Play(one, parameters) for group, one in editions.items()}
        self.parameters = parameters

    def help(self, state: State, now: Instant) -> Help:
        """Return what would help most, with the clock as it is `now`."""
        stands = [one for one in self._stands(state, now) if one.chance < TARGET]
        stuck = [one for one in stands if self._is_stuck(one.group, state.clock.played_s(now))]
        best = max(stuck, key=lambda one: one.gain, default=None)
        if best is not None and best.gain >= LEAST_GAIN:
            return Help("hint", best.group.id, best.group.name, best.clue)
        worst = min(stands, key=lambda one: one.chance, default=None)
        if worst is not None and worst.chance < LOST:
            return Help("late", worst.group.id, worst.group.name)
        return Help("none")

    def _is_stuck(self, group: Group, played_s: int) -> bool:
        deeds = (*group.opened.values(), *group.found.values(), *(h.deed for h in group.hints))
        last = max((deed.at_ms for deed in deeds), default=0) / 1000
        return played_s - last >= self.parameters["hint.after"]

    def _stands(self, state: State, now: Instant) -> Iterator[_Stand]:
        from boxwright.forecast.midway import outlook

        for group in state.groups.values():
            play = self.plays.get(group.id)
            table = None if play is None else table_of(group, play.edition)
            if play is None or table is None or table.won or group.finished is not None:
                continue
            try:
                told = outlook(
                    play.midway(state, group, table, now), self.parameters, Dice(CHANCES)
                )
            except TooManyError:
                continue
            gains = {clue: chance - told.chance for clue, chance in told.with_hint.items()}
            clue = max(gains, key=lambda one: gains[one], default="")
            yield _Stand(group, told.chance, clue, gains.get(clue, 0.0))


class _Play:
    """One edition as a network, and what its clues are expected to take."""

    def __init__(self, edition: Edition, parameters: Parameters) -> None:
        self.edition, self.parameters = edition, parameters

    @cached_property
    def network(self) -> Network:
        return network_of(self.edition, AsWished(self.edition))

    @cached_property
    def expected(self) -> Mapping[str, float]:
        return expected_of(self.edition, self.parameters)

    def midway(self, state: State, group: Group, table: Table, now: Instant) -> Midway:
        """Return what is left of a table's game, and what it has shown."""
        from boxwright.forecast.midway import Midway, Spent

        left = replace(_left_of(self.network, group, table), hints=table.hints_left)
        now_ms = state.clock.played_ms(now)
        at_work = {
            id: Spent(max(now_ms - clue.ready_ms, 0) / 1000, clue.hints)
            for id, clue in table.clues.items()
            if clue.ready_ms is not None and id in left.names
        }
        seen = of_group(state, "", group, self.edition, table, self.expected)
        took = tuple(log(one.minutes / one.expected) for one in seen if not one.hints)
        return Midway(left, float(state.clock.left_s(now)), at_work, took)


def _left_of(network: Network, group: Group, table: Table) -> Network:
    """Return `network` without what a table has done."""
    solved = {id for id, clue in table.clues.items() if clue.solved_ms is not None}
    had = solved | set(group.opened) | set(group.found)
    for task in network.tasks:
        if task.gives in had and task.name in network.names:
            network = network.without(task.name)
    return network
