"""A forecast drawn: bars where they belong along the clock."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Forecast
from boxwright.forecast.drawn import drawn
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.reckoning import forecast
from tests.forecast import games

STUCK = games.network(games.task("a", "b"), games.task("b", "a"), games.task("c"))


def told(game: Network, play_s: float) -> Forecast:
    """Return the forecast of a game from one seed."""
    return forecast(Asked(game, play_s, trials=200), Parameters(), Dice("drawn"))


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 999), st.integers(2, 12), st.integers(1, 9000))
def test_bars_lie_in_order_within_the_picture(seed: int, clues: int, play_s: int) -> None:
    picture = drawn(told(games.drawn(Dice(f"drawn {seed}"), clues), play_s))
    for row in picture.rows:
        assert row.bar is not None
        ends = (row.bar.may_from, row.bar.begins, row.bar.ends, row.bar.may_to)
        assert ends[0] >= 0
        assert list(ends) == sorted(ends)
        assert ends[-1] <= 1
    assert picture.play <= 1
    assert picture.length_s >= play_s
    begins = [row.bar.begins for row in picture.rows if row.bar]
    assert begins == sorted(begins)
    assert 1 < len(picture.figures) <= 9 or picture.length_s == 60


def test_the_bar_of_a_clue_spans_what_the_forecast_says() -> None:
    found = told(games.drawn(Dice("one"), 6), 3600)
    picture = drawn(found)
    clue = found.clues[0]
    row = next(one for one in picture.rows if one.name == clue.name)
    assert row.bar is not None
    assert row.bar.ends * picture.length_s == pytest.approx(clue.closes.p50)
    assert row.bar.may_to * picture.length_s == pytest.approx(clue.closes.p90)
    assert row.holds_up == clue.holds_up


def test_what_is_never_done_has_no_bar_and_comes_last() -> None:
    picture = drawn(told(STUCK, 600))
    assert picture.rows[0].name == "c"
    assert [row.bar is None for row in picture.rows] == [False, True, True]
    assert picture.finish is None
