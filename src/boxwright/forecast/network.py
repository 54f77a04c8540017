"""A game as a network of tasks: what waits for what, and what each task takes.

A task is what a group does to come by one thing: a clue that leads to a lock, an item or
a place, or a lock that a key opens. Names of things had are plain texts; nothing here
knows of files or editions.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Literal, TypeAlias

from boxwright.frozen import frozen_value
from boxwright.game.hinting import LINES
from boxwright.game.model import Level, MechanismName
from boxwright.puzzles.contract import Effort

Hiding = Literal["given", "box", "led", "room"]
"""Handed out or in the open; in a box that is open now; where a clue led; hidden in the room."""

Ways: TypeAlias = tuple[frozenset[str], ...]
"""Sets of things, any one of which will do; none at all: it can never be."""

FREE: Ways = (frozenset(),)
MOST_TASKS = 63
"""More cannot be forecast: what a group has is kept as the bits of one number."""
NO_EFFORT = Effort(0, 0, 0, 0, "")


class TooManyError(ValueError):
    """A game with more tasks, or a group with more pupils, than can be reckoned with."""


@frozen_value
class Entry:
    """How a lock takes its code; after `wrong_tries` wrong ones it rests `rest_s` (0: never)."""

    mechanism: MechanismName
    symbols: int
    wrong_tries: int = 0
    rest_s: int = 0


@frozen_value
class Work:
    """What a task takes.

    `hiding` has an entry for each piece to find. At its end a code is entered (`entry`), or
    a thing fetched (`fetches`), or the answer is just known. `solving_s` is somebody's word
    for one pupil, where nothing can be counted; else `effort` tells.
    """

    effort: Effort = NO_EFFORT
    hiding: tuple[Hiding, ...] = ()
    entry: Entry | None = None
    level: Level = "ordinary"
    solving_s: float | None = None
    fetches: bool = False


@frozen_value
class Task:
    """What a group does to come by the thing `gives`, once one of `needs` is had.

    `seats`: the most pupils who can work at it (None: as many as at any sheet);
    `hints`: the most hint lines there are for it; `papers`: the sheets that it has on the
    table for as long as it is open.
    """

    name: str
    gives: str
    work: Work
    needs: Ways = FREE
    seats: int | None = None
    hints: int = LINES
    papers: int = 0

    @property
    def opens(self) -> bool:
        """Whether it ends with a lock that opens."""
        return self.work.entry is not None


@frozen_value
class Network:
    """All tasks of a game, what ends it, and the group that plays: its pupils and its hints.

    Tasks that give the same thing are alternatives: once one is done, the others are idle.
    """

    tasks: tuple[Task, ...]
    goal: Ways
    pupils: int
    hints: int = 0
    ages: tuple[int, int] = (9, 11)

    @property
    def names(self) -> tuple[str, ...]:
        """The tasks by name, in the game's order."""
        return tuple(task.name for task in self.tasks)

    @property
    def things(self) -> tuple[str, ...]:
        """What can be had, each once, in the order of the tasks that give it."""
        return tuple(dict.fromkeys(task.gives for task in self.tasks))

    def without(self, name: str) -> Network:
        """Return the network without one task, whose thing counts as had from the start.

        Other tasks for the same thing go with it.
        """
        thing = next(task.gives for task in self.tasks if task.name == name)
        rest = (task for task in self.tasks if task.gives != thing)
        tasks = tuple(replace(task, needs=_had(task.needs, thing)) for task in rest)
        return replace(self, tasks=tasks, goal=_had(self.goal, thing))

    def changed(self, task: Task) -> Network:
        """Return the network with `task` in place of the one of its name."""
        tasks = tuple(task if one.name == task.name else one for one in self.tasks)
        return replace(self, tasks=tasks)


def _had(ways: Ways, thing: str) -> Ways:
    return least(way - {thing} for way in ways)


def least(ways: Iterable[frozenset[str]]) -> Ways:
    """Return `ways` without those that ask for more than another one."""
    found: list[frozenset[str]] = []
    for way in sorted(set(ways), key=lambda one: (len(one), sorted(one))):
        if not any(other <= way for other in found):
            found.append(way)
    return tuple(found)


def open_tasks(network: Network, had: frozenset[str]) -> Iterator[Task]:
    """Yield the tasks that a group can work at, with `had` in its hands."""
    for task in network.tasks:
        if task.gives not in had and any(way <= had for way in task.needs):
            yield task
