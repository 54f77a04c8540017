"""What each group did at which event, and what follows from it once all is over.

Pupils fall idle and tasks come open at the end of another task alone, so the task whose
end let one begin is known; from the last one backwards these make the row of tasks, each
begun when the one before it ended, that fills the whole game: they held it up.
"""

from __future__ import annotations

import numpy as np

from boxwright.forecast.plan import Array

SHIFT = 6
"""Bits for a task's row; the event at which it was begun stands above them."""
NOT_BEGUN = 0xFFFF


class Diary:
    """The events of all groups, as counts of events gone by."""

    def __init__(self, shape: tuple[int, int]) -> None:
        tasks, groups = shape
        self.clock: list[Array] = []
        self.enders: list[Array] = []
        self.opened, self.closed = np.zeros(shape, np.uint8), np.zeros(shape, np.uint8)
        self.begun = np.full(shape, NOT_BEGUN, np.uint16)
        self.lived = np.zeros(groups, np.uint8)
        self.rows = np.arange(tasks, dtype=np.uint16)[:, None]
        self.weights = np.arange(tasks, 0, -1, dtype=np.uint8)[:, None]

    def note(self, alive: Array, time: Array, at: Array, waits: Array, done: Array) -> None:
        """Note the time of an event, and which tasks are open, at work or done after it."""
        now = np.uint16(len(self.clock) << SHIFT)
        self.clock.append(time.copy())
        self.lived += alive
        self.opened += waits
        self.closed += 1 - done
        nobody = np.negative((at == 0).view(np.uint8), dtype=np.uint16)
        nobody |= self.rows | now
        np.minimum(self.begun, nobody, out=self.begun)

    def first_begun(self, among: Array) -> Array:
        """Return a one at the task that was begun first of those, noughts elsewhere."""
        key = np.negative(1 - among, dtype=np.uint16)
        key |= self.begun
        first: Array = (key == key.min(0)).view(np.uint8)
        first &= among
        return first

    def ended(self, ended: Array) -> None:
        """Note which task ended at the next event, the first where several did; 0 for none."""
        self.enders.append((ended * self.weights).max(0))

    def moments(self, time: Array, waits: Array, done: Array) -> tuple[Array, Array]:
        """Return when tasks came open and were done; infinite for never. `time`: the end."""
        clock = np.stack([*self.clock, time, np.full_like(time, np.inf)])
        last = len(clock) - 1
        opened = np.where(waits, last, self.opened)
        closed = np.where(done, self.closed, last)
        opened_at = np.take_along_axis(clock, opened.astype(np.intp), axis=0)
        return opened_at, np.take_along_axis(clock, closed.astype(np.intp), axis=0)

    def holds_up(self, won: Array) -> Array:
        """Return in how many of the groups that won each task held up the game."""
        tasks, groups = self.begun.shape
        counts = np.zeros(tasks, np.int64)
        on, column = won & (self.lived > 0), np.arange(groups)
        if not on.any():
            return counts
        enders, event = np.stack(self.enders), self.lived.astype(np.intp)
        while on.any():
            row = tasks - enders[np.maximum(event, 1) - 1, column].astype(np.intp)
            counts += np.bincount(row[on], minlength=tasks)[:tasks]
            event = np.take_along_axis(self.begun, row[None] % tasks, axis=0)[0] >> SHIFT
            on &= event > 0
            event *= on  # else a group that is through may point at a task never begun
        return counts
