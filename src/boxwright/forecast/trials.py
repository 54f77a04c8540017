"""Many groups at one game, in step with one another: each step is the next event of each.

An event is a task that ends or a hint that is given. Between two events nobody changes
place, so that a task's find, read, solve and enter run down in closed form. Every step
does the same few sums for all groups; where a group is not concerned, a nought in the sum
says so, which is many times quicker than to pick out those that are.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from boxwright.forecast.diary import Diary
from boxwright.forecast.plan import Array, Plan
from boxwright.frozen import frozen_value

NEVER = 1e9
"""Seconds that no game takes."""
BYTE = 256


class Times(NamedTuple):
    """Seconds for each task (rows) of each group (columns), for one pupil."""

    find: Array
    read: Array
    solve: Array
    enter: Array


@frozen_value
class Trials:
    """What came of it: seconds from the start, infinite for never; tasks are rows.

    `finish`: the end of each group's game; `opened`: when each task could be begun;
    `closed`: when it was done; `holds_up`: in how many groups a task held up the game;
    `hints`: hints given for each task; `idle_s`: pupils' seconds with nothing to do;
    `loose`: the most sheets that lay on the table at once, of clues not yet done.
    """

    finish: Array
    opened: Array
    closed: Array
    holds_up: Array
    hints: Array
    idle_s: Array
    loose: Array


def play(plan: Plan, times: Times) -> Trials:
    """Let every group play its game to the end, or until nothing can go on."""
    groups = _Groups(plan, times)
    while groups.look():
        groups.send_pupils()
        groups.go_on()
    won = groups.won
    finish = np.where(won, groups.time, np.inf)
    opened, closed = groups.diary.moments(groups.time, groups.waits, groups.done)
    idle_s = np.where(won, groups.idle_s, np.inf)
    held_up = groups.diary.holds_up(won)
    return Trials(finish, opened, closed, held_up, groups.hinted, idle_s, groups.loose)


def _busy(working: Array) -> slice:
    """Return the rows from the first to the last task that any group is at: the others rest."""
    rows = np.flatnonzero(working.any(1))
    return slice(int(rows[0]), int(rows[-1]) + 1) if len(rows) else slice(0, 1)


class _Groups:
    """All groups between two events; arrays of `uint8` hold noughts and ones, or small counts."""

    def __init__(self, plan: Plan, times: Times) -> None:
        shape = tasks, groups = times.find.shape
        self.plan, self.real = plan, times.find.dtype
        self.phases = self.find, self.read, self.solve, self.enter = tuple(
            part.copy() for part in times
        )
        self.time, self.idle_s = np.zeros(groups, self.real), np.zeros(groups, self.real)
        self.had = np.zeros(groups, plan.gives.dtype)
        self.loose = np.zeros(groups, np.uint8)
        self.hints_left = np.full(groups, plan.hints, np.uint8)
        self.alive, self.won = np.ones(groups, np.uint8), np.zeros(groups, bool)
        self.at, self.hinted, self.done = (np.zeros(shape, np.uint8) for _ in range(3))
        self.diary = Diary(shape)
        self._make_keys(tasks)
        self.paces = plan.paces.astype(self.real)
        self.x, self.y, self.pace, self.spent = (np.empty(shape, self.real) for _ in range(4))
        self.a, self.b = np.empty(shape, np.uint8), np.empty(shape, np.uint8)

    def _make_keys(self, tasks: int) -> None:
        """Make room for keys: pupils at a task, then its row, so that the least is where to go."""
        one = 1 << tasks.bit_length()
        most = np.minimum(self.plan.seats, self.plan.pupils)
        kind = np.uint8 if (int(most.max(initial=1)) + 1) * one <= BYTE else np.uint16
        self.one: Array = np.array(one, kind)
        self.nowhere = np.iinfo(kind).max
        self.rows: Array = np.arange(tasks, dtype=kind)[:, None]
        full: Array = most.astype(kind) * self.one
        self.full = full[:, None] | self.rows

    def look(self) -> bool:
        """See what is open now, and who is idle; False once no group can go on."""
        plan, missing = self.plan, ~self.had
        self.won |= (plan.goal[:, None] & missing).min(0) == 0
        self.alive *= ~self.won
        lacking = ((plan.ways[:, None] & missing) != 0).view(np.uint8)
        self.waits = lacking if plan.single else np.minimum.reduceat(lacking, plan.starts, axis=0)
        self.shut = ((plan.gives[:, None] & self.had) != 0).view(np.uint8)
        self.shut |= self.waits
        np.subtract(1, self.shut, out=self.a)
        self.at *= self.a
        self.a *= plan.papers[:, None]
        np.maximum(self.loose, self.a.sum(0, dtype=np.uint8) * self.alive, out=self.loose)
        self.idle = np.subtract(plan.pupils, self.at.sum(0, dtype=np.uint8))
        return bool(self.alive.any())

    def send_pupils(self) -> None:
        """Send each idle pupil to the open task with fewest, if one has a seat left."""
        kind = self.rows.dtype
        key: Array = self.at * self.one
        key |= self.rows
        closed: Array = np.negative(self.shut, dtype=kind)
        key |= closed
        self._fill(key)
        for _ in range(self.plan.pupils):
            least = key.min(0)
            sent = ((least != self.nowhere) & (self.idle != 0)).view(np.uint8)
            if not sent.any():
                break
            joined = np.equal(key, least, out=self.a.view(bool)).view(np.uint8)
            joined *= sent
            self.at += joined
            self.idle -= sent
            key += joined * self.one
            self._fill(key)
        self.diary.note(self.alive, self.time, self.at, self.waits, self.done)

    def _fill(self, key: Array) -> None:
        """Close tasks to further pupils where no seat is left."""
        full: Array = np.negative((key == self.full).view(np.uint8), dtype=key.dtype)
        key |= full

    def go_on(self) -> None:
        """Go on to the next event of every group."""
        working = np.not_equal(self.at, 0, out=self.b.view(bool)).view(np.uint8)
        rows = _busy(working)
        left, least = self._left(working, rows)
        hinted = self._hinted(working, least)
        wait = np.where(hinted, self.real.type(self.plan.hint_after_s), least)
        wait *= self.alive
        self.time += wait
        self.idle_s += self.idle * wait
        self._spend(working, wait, rows)
        ended = self.a
        ended[:] = 0
        np.equal(left, least, out=ended[rows].view(bool))
        ended *= working
        ended *= self.alive & ~hinted
        self._end(ended)
        self._hint(working, hinted)
        self.alive *= wait < NEVER

    def _left(self, working: Array, rows: slice) -> tuple[Array, Array]:
        """Return the seconds that each task still takes at its pace, and the least of them."""
        pace = self.pace[rows]
        np.take(self.paces, self.at[rows], out=pace, mode="clip")
        left = np.add(self.find[rows], self.solve[rows], out=self.x[rows])
        left *= pace
        left += self.read[rows]
        left += self.enter[rows]
        resting = 1 - working[rows]
        left += np.multiply(resting, NEVER, out=self.y[rows], dtype=self.real, casting="unsafe")
        return left, left.min(0)

    def _hinted(self, working: Array, least: Array) -> Array:
        """Tell which groups are given a hint before anything ends.

        Nothing ended since the last event, so that a group is stuck for as long as it waits.
        """
        can = working & (self.hinted < self.plan.lines[:, None])
        stuck: Array = least > self.plan.hint_after_s
        stuck &= (self.hints_left != 0) & (can.max(0) != 0) & (self.alive != 0)
        return stuck

    def _hint(self, working: Array, hinted: Array) -> None:
        """Give a hint to the task that was begun first, of those that there are hints for."""
        if hinted.any():
            can = working & (self.hinted < self.plan.lines[:, None])
            hint = self.diary.first_begun(can)
            hint *= hinted
            self.hinted += hint
            self.hints_left -= hinted
            self.solve -= self.solve * hint * self.real.type(1 - self.plan.hint_leaves)

    def _spend(self, working: Array, wait: Array, rows: slice) -> None:
        """Let the time that passes run down the phases, one after the other."""
        pace, work, spent = self.pace[rows], self.y[rows], self.spent[rows]
        np.multiply(working[rows], wait, out=spent, dtype=self.real, casting="unsafe")
        for phase, shared in zip(self.phases, (True, False, True, False), strict=True):
            left = phase[rows]
            np.minimum(left, np.divide(spent, pace, out=work) if shared else spent, out=work)
            np.subtract(left, work, out=left)
            if shared:
                work *= pace
            spent -= work

    def _end(self, ended: Array) -> None:
        """Have what the tasks give that ended."""
        self.done |= ended
        bits = np.multiply(ended, self.plan.gives[:, None], dtype=self.had.dtype)
        self.had |= np.bitwise_or.reduce(bits, axis=0)
        self.diary.ended(ended)
