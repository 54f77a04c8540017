"""Many groups at one game, in step with one another: each step is the next event of each.

An event is a task that ends or a hint that is given. Between two events nobody changes
place, so that a task's find, read, solve and enter run down in closed form. A group is at
no more tasks than it has pupils, so each group has a few desks, on which lie the tasks that
it is at. Every step does the same few sums for the desks of all groups; where one is not
concerned, a nought in the sum says so, which is quicker than to pick out those that are. Only
what comes onto a desk or leaves it is picked out: each task once for each group. So a game of
twice as many tasks takes about twice as long.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from boxwright.forecast.diary import Diary
from boxwright.forecast.plan import Array, Plan
from boxwright.frozen import frozen_value

NEVER = 1e9
"""Seconds that no game takes."""
SHIFT = 6
"""Bits for a task's row in a tag; the event at which it was begun stands above them."""
ROW = (1 << SHIFT) - 1
LAST = 0xFFFF
"""Comes after every tag and every key."""


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
    won, diary = groups.won, groups.diary
    finish = np.where(won, groups.time, np.inf)
    idle_s = np.where(won, groups.idle_s, np.inf)
    held_up = diary.holds_up(won)
    return Trials(
        finish, diary.opened(), diary.closed, held_up, groups.hinted, idle_s, groups.loose
    )


def _lowest(bits: Array) -> Array:
    """Return the lowest of each `bits` alone."""
    found: Array = bits & np.negative(bits)
    return found


def _place(bit: Array) -> Array:
    """Return which bit it is, from 0: the exponent of the number that it is by itself."""
    found: Array = (bit.astype(np.float32).view(np.int32) >> 23) - 127
    return found


class _Groups:
    """All groups between two events; groups are columns, and desks are rows.

    Arrays of `uint8` hold noughts and ones, or small counts. On a desk: how many pupils are
    `at` its task (0: it is free), the task's `tag` and `seats`, the hint `lines` left for it,
    and what is left of its phases.
    """

    def __init__(self, plan: Plan, times: Times) -> None:
        tasks, groups = times.find.shape
        self.plan, self.given, self.real = plan, times, times.find.dtype
        self.time, self.idle_s = np.zeros(groups, self.real), np.zeros(groups, self.real)
        self.had = np.zeros(groups, plan.gives.dtype)
        self.loose = np.zeros(groups, np.uint8)
        self.hints_left = np.full(groups, plan.hints, np.uint8)
        self.alive, self.won = np.ones(groups, np.uint8), np.zeros(groups, bool)
        self.hinted = np.zeros((tasks, groups), np.uint8)
        self.diary = Diary(plan, (tasks, groups), self.real)
        self.paces = plan.paces.astype(self.real)
        self.open = plan.open_now(self.had)
        self.begun = np.zeros_like(self.open)
        self._make_desks(max(1, min(plan.pupils, tasks)), groups)

    def _make_desks(self, desks: int, groups: int) -> None:
        shape = desks, groups
        self.at, self.seats, self.lines = (np.zeros(shape, np.uint8) for _ in range(3))
        self.tag = np.zeros(shape, np.uint16)
        self.phases = self.find, self.read, self.solve, self.enter = tuple(
            np.zeros(shape, self.real) for _ in range(4)
        )
        self.x, self.y, self.pace, self.spent = (np.empty(shape, self.real) for _ in range(4))
        self.desk_bits = (np.uint64(1) << np.arange(desks, dtype=np.uint64))[:, None]
        if desks <= 8:
            self.desk_bits = self.desk_bits.astype(np.uint8)

    def look(self) -> bool:
        """See what is open now, and who is idle; False once no group can go on."""
        plan, missing = self.plan, ~self.had
        for goal in plan.goal:
            self.won |= (missing & goal) == 0
        self.alive *= ~self.won
        self.open = plan.open_now(self.had)
        if plan.papers is not None:
            np.maximum(self.loose, plan.papers.of(self.open) * self.alive, out=self.loose)
        if plan.rivals:
            self.at *= ((self.open >> (self.tag & ROW)) & 1).astype(np.uint8)
        self.idle = np.subtract(plan.pupils, self.at.sum(0, dtype=np.uint8))
        return bool(self.alive.any())

    def send_pupils(self) -> None:
        """Send each idle pupil to the open task with fewest, if one has a seat left."""
        self.free = np.bitwise_or.reduce((self.at == 0) * self.desk_bits, axis=0)
        for _ in range(self.plan.pupils):
            looking = (self.idle != 0) & self.alive.view(bool)
            untouched = self.open & ~self.begun
            first = looking & (untouched != 0)
            columns = np.flatnonzero(first)
            if len(columns):
                self._begin(columns, untouched[columns])
            if not self._join(looking & ~first) and not len(columns):
                break
        self.diary.lived += self.alive

    def _begin(self, columns: Array, untouched: Array) -> None:
        """Lay the first untouched task onto a free desk, and send a pupil there."""
        task, desk = _lowest(untouched), _lowest(self.free[columns])
        groups, row = len(self.alive), _place(task)
        here, there = _place(desk) * groups + columns, row * groups + columns
        for lies, given in zip(self.phases, self.given, strict=True):
            lies.reshape(-1)[here] = given.take(there)
        self.tag.reshape(-1)[here] = self.diary.event << SHIFT | row
        self.at.reshape(-1)[here] = 1
        self.seats.reshape(-1)[here] = self.plan.seats.take(row)
        self.lines.reshape(-1)[here] = self.plan.lines.take(row)
        self.diary.begun.reshape(-1)[there] = self.diary.event
        self.begun[columns] |= task
        self.free[columns] ^= desk
        self.idle[columns] -= 1

    def _join(self, looking: Array) -> bool:
        """Send a pupil to the desk with fewest that has a seat left; tell whether any went."""
        if not looking.any():
            return False
        key = self.tag & ROW
        key |= self.at.astype(np.uint16) << SHIFT
        closed = ((self.at == 0) | (self.at >= self.seats)).view(np.uint8)
        key |= np.negative(closed, dtype=np.uint16)
        least = key.min(0)
        sent = looking & (least != LAST)
        if not sent.any():
            return False
        self.at += (key == least) & sent
        self.idle -= sent
        return True

    def go_on(self) -> None:
        """Go on to the next event of every group."""
        working = (self.at != 0).view(np.uint8)
        left, least = self._left(working)
        can = working & (self.lines != 0)
        hinted = self._hinted(can, least)
        wait = np.where(hinted, self.real.type(self.plan.hint_after_s), least)
        wait *= self.alive
        self.time += wait
        self.idle_s += self.idle * wait
        self._spend(working, wait)
        ended = (left == least).view(np.uint8)
        ended *= working
        ended *= self.alive & ~hinted
        self._end(ended)
        self._hint(can, hinted)
        self.alive *= wait < NEVER

    def _left(self, working: Array) -> tuple[Array, Array]:
        """Return the seconds that each task still takes at its pace, and the least of them."""
        np.take(self.paces, self.at, out=self.pace, mode="clip")
        left = np.add(self.find, self.solve, out=self.x)
        left *= self.pace
        left += self.read
        left += self.enter
        left += np.multiply(1 - working, NEVER, out=self.y, dtype=self.real, casting="unsafe")
        return left, left.min(0)

    def _hinted(self, can: Array, least: Array) -> Array:
        """Tell which groups are given a hint before anything ends.

        Nothing ended since the last event, so that a group is stuck for as long as it waits.
        """
        stuck: Array = least > self.plan.hint_after_s
        stuck &= (self.hints_left != 0) & (can.max(0) != 0) & (self.alive != 0)
        return stuck

    def _hint(self, can: Array, hinted: Array) -> None:
        """Give a hint to the task that was begun first, of those that there are hints for."""
        column = np.flatnonzero(hinted)
        if not len(column):
            return
        key = self.tag[:, column] | np.negative(1 - can[:, column], dtype=np.uint16)
        here = key.argmin(0) * len(hinted) + column
        row = self.tag.take(here) & ROW
        self.lines.reshape(-1)[here] -= 1
        self.solve.reshape(-1)[here] *= self.real.type(self.plan.hint_leaves)
        self.hints_left[column] -= 1
        self.hinted[row, column] += 1

    def _spend(self, working: Array, wait: Array) -> None:
        """Let the time that passes run down the phases, one after the other."""
        work, spent = self.y, self.spent
        np.multiply(working, wait, out=spent, dtype=self.real, casting="unsafe")
        for left, shared in zip(self.phases, (True, False, True, False), strict=True):
            np.minimum(left, np.divide(spent, self.pace, out=work) if shared else spent, out=work)
            np.subtract(left, work, out=left)
            if shared:
                work *= self.pace
            spent -= work

    def _end(self, ended: Array) -> None:
        """Have what the tasks give that ended, and clear their desks."""
        rows = self.tag & ROW
        rows |= np.negative(1 - ended, dtype=np.uint16)
        first = rows.min(0)
        column = np.flatnonzero(first != LAST)
        self._have(first[column], column)
        if np.count_nonzero(ended) > len(column):
            others = ended & (rows != first)
            for row, also in zip(rows, others, strict=True):
                column = np.flatnonzero(also)
                self._have(row[column], column)
        self.diary.note(np.minimum(first, len(self.plan.gives) - 1))
        self.at *= 1 - ended

    def _have(self, row: Array, column: Array) -> None:
        """Have what a task gives, in each of some groups."""
        self.diary.closed[row, column] = self.time[column]
        self.had[column] |= self.plan.gives[row]
