"""End of play, tidying up and bell by the clock on the wall."""

from __future__ import annotations

from boxwright.game.arranged import TimePlan
from boxwright.live.day import day_of
from boxwright.live.play_clock import PlayClock
from tests.live.plays import START

PLAN = TimePlan(3000, 240, 300, 420, 240)
PLANNED = PlayClock(planned_s=1500)
MINUTE = 60_000


def since(ms: int) -> int:
    return (ms - START.wall_ms) // 1000


def test_the_bell_goes_after_play_talk_and_tidying() -> None:
    day = day_of(PLANNED.started(START), PLAN, START.moved(MINUTE))
    assert [since(one) for one in (day.start_ms, day.end_ms, day.tidy_ms, day.bell_ms)] == [
        0, 1500, 1920, 2160
    ]  # fmt: skip


def test_the_bell_does_not_wait_for_what_is_held_or_added() -> None:
    clock = PLANNED.started(START).held(START.moved(MINUTE), "").extended(300)
    day = day_of(clock, PLAN, START.moved(3 * MINUTE))
    assert since(day.end_ms) == 1500 + 300 + 120
    assert since(day.bell_ms) == 2160


def test_before_the_start_it_is_as_if_it_began_now_and_more_time_is_another_plan() -> None:
    day = day_of(PLANNED.extended(-300), PLAN, START.moved(MINUTE))
    assert [since(one) for one in (day.start_ms, day.end_ms, day.bell_ms)] == [60, 1260, 1920]


def test_play_that_was_ended_ended_then() -> None:
    clock = PLANNED.started(START).ended(START.moved(MINUTE), "")
    assert since(day_of(clock, PLAN, START.moved(9 * MINUTE)).end_ms) == 60
