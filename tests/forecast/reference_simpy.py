"""The forecast's model told as processes that wait for each other, to hold the quick one against.

A group's pupils go where fewest are at work; a clue goes through its phases at the pace of
those at it; when nothing was opened for long, the clue that was begun first gets a hint.
Nothing is shared with the quick model but the network and the rules.
"""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass, field
from typing import Any

import simpy

from boxwright.forecast.network import Network, Task, open_tasks
from boxwright.forecast.parameters import Rules

Seconds = Mapping[str, float]
"""What each phase of one clue takes: find, read, solve, enter."""

PHASES = ("find", "read", "solve", "enter")
SHARED = ("find", "solve")
"""Phases that go quicker when more pupils are at it."""

Process = Generator[simpy.Event, Any, None]


@dataclass
class AtWork:
    """One clue in work: who is at it, since when, what is left of it, the hints it had."""

    task: Task
    rank: int
    left: dict[str, float]
    process: simpy.Process | None = None
    pupils: int = 0
    since: float = 0.0
    hints: int = 0


@dataclass
class Played:
    """How one group's game went: when it ended (None: never), and when things came."""

    finish: float | None = None
    opened: dict[str, float] = field(default_factory=dict)
    closed: dict[str, float] = field(default_factory=dict)
    hints: dict[str, int] = field(default_factory=dict)
    idle_s: float = 0.0


class Group:
    """One group at its game."""

    def __init__(self, network: Network, rules: Rules, times: Mapping[str, Seconds]) -> None:
        self.network, self.rules = network, rules
        self.env = simpy.Environment()
        self.clues = {
            task.name: AtWork(task, rank, dict(times[task.name]))
            for rank, task in enumerate(network.tasks)
        }
        self.had: frozenset[str] = frozenset()
        self.idle, self.hints_left = network.pupils, network.hints
        self.counted = 0.0
        self.played = Played()
        self.ended = self.env.event()
        self.moved = self.env.event()

    def play(self) -> Played:
        """Let it play to its end, or until nothing can go on."""
        self.env.process(self.settle())
        self.env.process(self.give_hints())
        self.env.run()
        return self.played

    def settle(self) -> Process:
        """Once all that ends now has ended: the end of the game, or pupils sent on."""
        yield self.env.timeout(0)
        if self.played.finish is not None:
            return
        if any(way <= self.had for way in self.network.goal):
            self.end()
            return
        self.send_pupils()
        moved, self.moved = self.moved, self.env.event()
        moved.succeed()

    def change_idle(self, by: int) -> None:
        """Let pupils fall idle or find something to do, and keep how long they were idle."""
        self.played.idle_s += self.idle * (self.env.now - self.counted)
        self.counted = self.env.now
        self.idle += by

    def end(self) -> None:
        """Stop the clock: whoever is still at work puts the pencil down."""
        self.change_idle(0)
        self.played.finish = self.env.now
        self.ended.succeed()
        for clue in self.clues.values():
            if clue.process is not None and clue.process.is_alive:
                clue.process.interrupt("end")

    def send_pupils(self) -> None:
        """Send each idle pupil to the open clue with fewest, if one has a seat left."""
        open_now = [self.clues[task.name] for task in open_tasks(self.network, self.had)]
        for clue in open_now:
            self.played.opened.setdefault(clue.task.name, self.env.now)
        joined = []
        while self.idle:
            free = [clue for clue in open_now if clue.pupils < self.seats(clue.task)]
            if not free:
                break
            clue = min(free, key=lambda one: (one.pupils, one.rank))
            clue.pupils += 1
            self.change_idle(-1)
            joined.append(clue)
        for clue in {id(one): one for one in joined}.values():
            self.join(clue)

    def seats(self, task: Task) -> int:
        """Return how many pupils can be at a clue."""
        return self.rules.seats if task.seats is None else task.seats

    def join(self, clue: AtWork) -> None:
        """Begin a clue, or go on with it at another pace."""
        if clue.process is None:
            clue.since = self.env.now
            clue.process = self.env.process(self.work(clue))
        else:
            clue.process.interrupt("pace")

    def work(self, clue: AtWork) -> Process:
        """Go through the phases of a clue, at the pace of those who are at it."""
        for phase in PHASES:
            while clue.left[phase] > 0:
                speed = self.rules.speed(clue.pupils) if phase in SHARED else 1.0
                start = self.env.now
                try:
                    yield self.env.timeout(clue.left[phase] / speed)
                    clue.left[phase] = 0.0
                except simpy.Interrupt as why:
                    if why.cause == "end":
                        return
                    spent = (self.env.now - start) * speed
                    clue.left[phase] = max(0.0, clue.left[phase] - spent)
                    if why.cause == "hint":
                        clue.left["solve"] *= self.rules.hint_leaves
        self.close(clue)

    def close(self, clue: AtWork) -> None:
        """Have what a clue gives; other clues for the same thing are put aside."""
        if clue.task.gives in self.had:
            return
        self.had |= {clue.task.gives}
        self.played.closed[clue.task.name] = self.env.now
        for other in self.clues.values():
            if other.task.gives == clue.task.gives:
                self.change_idle(other.pupils)
                other.pupils = 0
                if other is not clue and other.process is not None and other.process.is_alive:
                    other.process.interrupt("end")
        self.env.process(self.settle())

    def give_hints(self) -> Process:
        """Give a hint whenever nothing was opened for long since the last thing or hint."""
        while self.hints_left:
            moved, long = self.moved, self.env.timeout(self.rules.hint_after_s)
            happened = yield moved | long | self.ended
            if self.ended.triggered:
                return
            if moved in happened:
                continue
            stuck = [c for c in self.clues.values() if c.pupils and c.hints < c.task.hints]
            if not stuck:
                yield self.moved | self.ended
                continue
            clue = min(stuck, key=lambda one: (one.since, one.rank))
            clue.hints += 1
            self.hints_left -= 1
            self.played.hints[clue.task.name] = clue.hints
            assert clue.process is not None
            clue.process.interrupt("hint")


def play(network: Network, rules: Rules, times: Mapping[str, Seconds]) -> Played:
    """Play one group's game."""
    return Group(network, rules, times).play()
