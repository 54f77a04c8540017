"""The clock of a game: when it ran, and how much of it has been played at some instant."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, Self

from boxwright.live.clock import Instant, between_ms

Status = Literal["not-started", "running", "held", "ended"]


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch in which the clock ran; `end` is None while it does."""

    start: Instant
    end: Instant | None = None

    @property
    def length_ms(self) -> int:
        """How long it was; 0 while it lasts."""
        return 0 if self.end is None else max(between_ms(self.start, self.end), 0)

    def played_ms(self, at: Instant) -> int:
        """Return how much of this stretch lies before `at`."""
        passed = max(between_ms(self.start, at), 0)
        return passed if self.end is None else min(passed, self.length_ms)


@dataclass(frozen=True, slots=True)
class PlayClock:
    """Planned and extended seconds, the stretches that were played, and `why` it does not run."""

    planned_s: int = 0
    extended_s: int = 0
    status: Status = "not-started"
    runs: tuple[Run, ...] = ()
    why: str = ""

    def played_ms(self, at: Instant) -> int:
        """Return the milliseconds played until `at`.

        The last stretch that began before it is asked, and those before count as a whole: what
        the wall said back then may not fit to what it says now.
        """
        begun = [n for n, run in enumerate(self.runs) if between_ms(run.start, at) >= 0]
        if not begun:
            return 0
        before = self.runs[: begun[-1]]
        return sum(run.length_ms for run in before) + self.runs[begun[-1]].played_ms(at)

    def played_s(self, at: Instant) -> int:
        """Return the whole seconds played until `at`."""
        return self.played_ms(at) // 1000

    @property
    def length_ms(self) -> int:
        """How long all stretches were that are over."""
        return sum(run.length_ms for run in self.runs)

    @property
    def total_s(self) -> int:
        """The seconds that are to be played, as planned and lengthened since."""
        return self.planned_s + self.extended_s

    def left_s(self, at: Instant) -> int:
        """Return the whole seconds left at `at`; negative once the time is over."""
        return self.total_s - self.played_s(at)

    def started(self, at: Instant) -> Self:
        """Return the clock started at `at`, unless it was before."""
        return self if self.status != "not-started" else self._running(at)

    def resumed(self, at: Instant) -> Self:
        """Return the clock running again, if it was held."""
        return self if self.status != "held" else self._running(at)

    def held(self, at: Instant, why: str) -> Self:
        """Return the clock held at `at`, if it was running."""
        return self if self.status != "running" else self._stopped(at, "held", why)

    def ended(self, at: Instant, why: str) -> Self:
        """Return the clock stopped for good, if it was ever started."""
        if self.status in ("not-started", "ended"):
            return self
        return self._stopped(at, "ended", why)

    def extended(self, seconds: int) -> Self:
        """Return the clock with more time, or less if `seconds` is negative.

        Before the start it is the plan that changes.
        """
        if self.status == "not-started":
            return replace(self, planned_s=self.planned_s + seconds)
        return replace(self, extended_s=self.extended_s + seconds)

    def moved(self, at: Instant) -> Self:
        """Return the clock after the wall jumped: what follows is counted from `at` on.

        So a later boot, which has only the wall to go by, does not count the jump as play.
        """
        if self.status != "running":
            return self
        return self._stopped(at, "held", "")._running(at)

    def _running(self, at: Instant) -> Self:
        return replace(self, status="running", runs=(*self.runs, Run(at)), why="")

    def _stopped(self, at: Instant, status: Status, why: str) -> Self:
        *before, last = self.runs
        runs = (*before, replace(last, end=last.end or at))
        return replace(self, status=status, runs=runs, why=why)
