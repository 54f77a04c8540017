"""Time on the game's clock: across sleep, reboots, and walls that jump."""

from __future__ import annotations

import sys
import time
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.live import clock as clocks
from boxwright.live.clock import Instant, SystemClock, between_ms
from boxwright.live.play_clock import PlayClock
from tests.live.plays import START, ObedientClock

PLANNED = PlayClock(planned_s=600)


def test_within_one_boot_the_counter_tells_the_time_whatever_the_wall_says() -> None:
    later = replace(START.moved(5_000), wall_ms=0)
    assert between_ms(START, later) == 5_000
    assert between_ms(later, START) == -5_000


def test_across_boots_the_wall_tells_the_time() -> None:
    later = Instant("boot-2", 7, START.wall_ms + 90_000)
    assert between_ms(START, later) == 90_000


def test_a_lid_that_is_closed_does_not_stop_the_game() -> None:
    clock = ObedientClock()
    game = PLANNED.started(clock.now())
    clock.passes(300)  # asleep: the counter goes on
    assert game.played_s(clock.now()) == 300
    assert game.left_s(clock.now()) == 300


def test_a_reboot_does_not_stop_the_game() -> None:
    clock = ObedientClock()
    game = PLANNED.started(clock.now())
    clock.passes(100)
    clock.reboots(45)
    clock.passes(10)
    assert game.played_s(clock.now()) == 155


def test_a_wall_that_jumped_before_a_reboot_is_not_counted_as_play() -> None:
    clock = ObedientClock()
    game = PLANNED.started(clock.now())
    clock.passes(100)
    clock.jumps(3600)
    noted = game.moved(clock.now())
    clock.reboots(45)
    assert noted.played_s(clock.now()) == 145
    assert game.played_s(clock.now()) == 145 + 3600


def test_held_time_does_not_count() -> None:
    clock = ObedientClock()
    game = PLANNED.started(clock.now())
    clock.passes(100)
    game = game.held(clock.now(), "fire drill")
    assert (game.status, game.why) == ("held", "fire drill")
    clock.passes(500)
    game = game.resumed(clock.now())
    clock.passes(50)
    assert (game.played_s(clock.now()), game.why) == (150, "")


def test_a_moment_in_the_past_is_asked_of_the_stretches_before_it() -> None:
    clock = ObedientClock()
    game = PLANNED.started(clock.now())
    clock.passes(100)
    game = game.held(clock.now(), "")
    clock.passes(100)
    game = game.resumed(clock.now())
    clock.passes(30)
    ago = [game.played_s(clock.now().moved(-1000 * seconds)) for seconds in (0, 10, 50, 150, 900)]
    assert ago == [130, 120, 100, 80, 0]


def test_more_time_and_less() -> None:
    game = PLANNED.extended(300).extended(-60).started(START)
    assert game.left_s(START.moved(1_000_000)) == 840 - 1000


@pytest.mark.parametrize("done", ["started", "resumed", "held", "ended"])
def test_what_makes_no_sense_changes_nothing(done: str) -> None:
    over = PLANNED.started(START).ended(START.moved(1000), "bell")
    arguments = ("again",) if done in ("held", "ended") else ()
    assert getattr(over, done)(START.moved(9000), *arguments) is over
    if done != "started":
        assert getattr(PLANNED, done)(START, *arguments) is PLANNED


@given(st.lists(st.tuples(st.sampled_from(["held", "resumed", "moved"]), st.integers(0, 500))))
def test_what_was_played_is_what_passed_while_it_ran(acts: list[tuple[str, int]]) -> None:
    clock, played = ObedientClock(), 0
    game = PLANNED.started(clock.now())
    for act, seconds in acts:
        clock.passes(seconds)
        played += seconds if game.status == "running" else 0
        game = getattr(game, act)(clock.now(), *([""] if act == "held" else []))
    assert game.played_s(clock.now()) == played


# --- the computer's own clock ------------------------------------------------------------


def test_the_computers_clock_goes_forward_in_one_boot() -> None:
    clock = SystemClock()
    first, second = clock.now(), SystemClock().now()
    assert first.boot
    assert second.since_boot_ms >= first.since_boot_ms
    assert abs(first.wall_ms / 1000 - time.time()) < 60


@pytest.mark.parametrize(
    ("platform", "name"), [("linux", "CLOCK_BOOTTIME"), ("darwin", "CLOCK_MONOTONIC_RAW")]
)
def test_the_counter_is_the_one_that_sleep_does_not_stop(
    monkeypatch: pytest.MonkeyPatch, platform: str, name: str
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(time, name, 77, raising=False)
    monkeypatch.setattr(time, "clock_gettime_ns", {77: 5_000_000}.__getitem__, raising=False)
    assert SystemClock().now().since_boot_ms == 5


def test_without_such_a_counter_the_plain_one_has_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(time, "monotonic_ns", lambda: 9_000_000)
    assert SystemClock().now().since_boot_ms == 9


def test_without_an_id_of_the_boot_each_process_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clocks, "BOOT_ID", clocks.BOOT_ID / "none")
    assert SystemClock().boot != SystemClock().boot
