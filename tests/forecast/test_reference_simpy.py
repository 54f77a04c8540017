"""The model as processes plays small games as one would by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from boxwright.forecast.parameters import Rules
from tests.forecast.games import network, task
from tests.forecast.reference_simpy import Played, play

RULES = Rules(power=0.5, seats=4, hint_after_s=60, hint_leaves=0.5)


def seconds(
    solve: float, *, find: float = 0, read: float = 0, enter: float = 0
) -> dict[str, float]:
    """Return the phases of one clue."""
    return {"find": find, "read": read, "solve": solve, "enter": enter}


def test_one_pupil_does_one_thing_after_the_other() -> None:
    played = play(network(task("a"), task("b")), RULES, {"a": seconds(10), "b": seconds(20)})
    assert (played.finish, played.closed) == (30, {"a": 10, "b": 30})


def test_two_pupils_share_what_is_open_and_then_help_each_other() -> None:
    game = network(task("a"), task("b"), pupils=2)
    played = play(game, RULES, {"a": seconds(10), "b": seconds(20)})
    assert played.finish == pytest.approx(10 + 10 / 2**0.5)


def test_reading_and_entering_go_no_quicker_with_more_pupils() -> None:
    game = network(task("a"), pupils=4)
    played = play(game, RULES, {"a": seconds(10, find=6, read=7, enter=8)})
    assert played.finish == pytest.approx(3 + 7 + 5 + 8)


def test_who_finds_no_seat_is_idle() -> None:
    game = network(task("a", seats=1), task("b", "a", seats=1), pupils=3)
    played = play(game, RULES, {"a": seconds(10), "b": seconds(20)})
    assert (played.finish, played.idle_s, played.opened) == (30, 60, {"a": 0, "b": 10})


def test_who_is_stuck_gets_hints_as_long_as_there_are_any() -> None:
    times = {"a": seconds(1000)}
    without = play(network(task("a"), hints=0), RULES, times)
    some = play(network(task("a"), hints=2), RULES, times)
    assert without.finish == 1000
    # After 60 s half of 940 is left, after 60 more half of 410.
    assert (some.finish, some.hints) == (60 + 60 + 205, {"a": 2})
    assert play(network(task("a", hints=1), hints=2), RULES, times).hints == {"a": 1}


def test_what_waits_for_itself_never_ends() -> None:
    game = network(task("a", "b"), task("b", "a"), hints=2)
    assert play(game, RULES, {"a": seconds(1), "b": seconds(1)}) == Played(opened={}, hints={})


def test_the_game_ends_when_its_goal_is_had() -> None:
    game = network(task("a"), task("b"), pupils=2, goal="a")
    assert play(game, RULES, {"a": seconds(5), "b": seconds(9)}).finish == 5


def test_of_two_clues_to_one_thing_the_quicker_counts() -> None:
    other = replace(task("b"), gives="a")
    game = network(task("a"), other, task("c", "a"), pupils=2, goal="c")
    played = play(game, RULES, {"a": seconds(50), "b": seconds(8), "c": seconds(2)})
    assert played.finish == pytest.approx(8 + 2 / 2**0.5)
