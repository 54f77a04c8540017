"""What each group did at which event, and what follows from it once all is over.

Pupils fall idle and tasks come open at the end of another task alone, so the task whose
end let one begin is known; from the last one backwards these make the row of tasks, each
begun when the one before it ended, that fills the whole game: they held it up.
"""

from __future__ import annotations

import numpy as np

from boxwright.forecast.plan import Array, Plan


class Diary:
    """The events of all groups, as counts of events gone by; tasks are rows."""

    def __init__(self, plan: Plan, shape: tuple[int, int], real: np.dtype[np.floating]) -> None:
        self.plan = plan
        self.enders: list[Array] = []
        self.begun = np.zeros(shape, np.uint16)
        self.closed = np.full(shape, np.inf, real)
        self.lived = np.zeros(shape[1], np.uint16)

    @property
    def event(self) -> int:
        """How many events have gone by."""
        return len(self.enders)

    def note(self, first: Array) -> None:
        """Note which task ended at an event, the first where several did; none: any."""
        self.enders.append(first)

    def opened(self) -> Array:
        """Return when each task could be begun; infinite for never."""
        found = np.full_like(self.closed, np.inf)
        for opened, ways in zip(found, self.plan.needs, strict=True):
            for way in ways:
                had = [self.closed[list(rows)].min(0) for rows in way]
                np.minimum(opened, np.max(had, axis=0) if had else 0, out=opened)
        return found

    def holds_up(self, won: Array) -> Array:
        """Return in how many of the groups that won each task held up the game."""
        tasks, groups = self.begun.shape
        counts = np.zeros(tasks, np.int64)
        on, column = won & (self.lived > 0), np.arange(groups)
        if not on.any():
            return counts
        enders, event = np.stack(self.enders), self.lived.astype(np.intp)
        while on.any():
            row = enders[np.maximum(event, 1) - 1, column].astype(np.intp)
            counts += np.bincount(row[on], minlength=tasks)
            event = self.begun[row, column].astype(np.intp)
            on &= event > 0
        return counts
