"""The clock times of a lesson in play: when play ends, when tidying must begin, when the bell goes.

The bell does not wait: it goes so long after the start as was planned. What is held or added
moves the end of play, and so eats into the talk after it.
"""

from __future__ import annotations

from dataclasses import dataclass

from boxwright.game.arranged import TimePlan
from boxwright.live.clock import Instant
from boxwright.live.play_clock import PlayClock


@dataclass(frozen=True, slots=True)
class Day:
    """Instants by the wall clock, in milliseconds since 1970."""

    start_ms: int
    end_ms: int
    tidy_ms: int
    bell_ms: int


def day_of(clock: PlayClock, plan: TimePlan, now: Instant) -> Day:
    """Return the clock times as they stand `now`: before the start, as if it began now.

    While the clock is held, the end of play goes away from us.
    """
    start_ms = clock.runs[0].start.wall_ms if clock.runs else now.wall_ms
    after_s = clock.planned_s + plan.debrief_s
    return Day(
        start_ms=start_ms,
        end_ms=_end_ms(clock, now),
        tidy_ms=start_ms + 1000 * after_s,
        bell_ms=start_ms + 1000 * (after_s + plan.tidy_s),
    )


def _end_ms(clock: PlayClock, now: Instant) -> int:
    """Return when play ends, or ended."""
    last = clock.runs[-1].end if clock.runs else None
    if clock.status == "ended" and last is not None:
        return last.wall_ms
    left_ms = 1000 * clock.total_s - clock.played_ms(now)
    return now.wall_ms + left_ms
