"""In the midst of a game: what was seen counts, and a hint goes where it helps."""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt

import numpy as np
import pytest
from scipy import stats

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked
from boxwright.forecast.midway import Midway, Outlook, Spent, outlook, slowness
from boxwright.forecast.network import Network, Task, Work
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.reckoning import forecast, trials_of
from boxwright.forecast.timing import Bias
from boxwright.puzzles.contract import Effort
from tests.forecast.games import drawn, network

DEFAULTS = Parameters()
NO_CHANCE = {"find.spread": 0, "read.spread": 0, "enter.spread": 0, "wrong.ordinary": 0}
GAME = drawn(Dice("midway"), 8, pupils=3, hints=3)
MIDDLE = forecast(Asked(GAME, 1), DEFAULTS, Dice("midway")).finish.p50 or 0.0


def now(midway: Midway, parameters: Parameters = DEFAULTS) -> Outlook:
    """Return the outlook from one seed."""
    return outlook(midway, parameters, Dice("midway"))


def solved_in(steps: int, name: str = "a", *needs: str) -> Task:
    """Return a clue that is only solved: six seconds a step, one pupil of twelve."""
    work = Work(Effort(0, 0, steps, 1, ""))
    return Task(name, name, work, (frozenset(needs),))


def alone(*tasks: Task, hints: int = 0) -> Network:
    """Return a game for one pupil of twelve."""
    return replace(network(*tasks, hints=hints), ages=(12, 12))


def test_before_anything_happened_it_is_the_forecast() -> None:
    before = forecast(Asked(GAME, MIDDLE), DEFAULTS, Dice("another")).one
    assert now(Midway(GAME, MIDDLE)).chance == pytest.approx(before.value, abs=0.06)


def test_a_clue_long_at_work_takes_what_a_lognormal_takes_beyond_that() -> None:
    """One clue, nothing but solving: the chance is that of a lognormal cut off below."""
    given = Parameters(NO_CHANCE | {"group.alike": 0})
    median, spent, left = 600.0, 500.0, 300.0
    law = stats.lognorm(s=given["solve.spread"], scale=median)
    expected = (law.cdf(spent + left) - law.cdf(spent)) / law.sf(spent)
    found = now(Midway(alone(solved_in(100)), left, {"a": Spent(spent)}), given)
    assert found.chance == pytest.approx(expected, abs=0.05)


def test_a_clue_at_work_beyond_all_that_was_drawn_is_still_not_done() -> None:
    found = now(Midway(alone(solved_in(10)), 1.0, {"a": Spent(1e6)}))
    assert 0 <= found.chance <= 1
    later = now(Midway(alone(solved_in(10), solved_in(10, "b", "a")), 1.0, {"a": Spent(1e6)}))
    assert later.chance == 0


def test_the_slowness_of_a_group_is_that_of_normal_conditioning() -> None:
    """Held against the general formula for jointly normal numbers, with NumPy."""
    took = [0.3, -0.1, 0.5]
    spread, alike = DEFAULTS["solve.spread"], DEFAULTS["group.alike"]
    across = np.full(3, spread * sqrt(alike))
    seen = spread**2 * (alike * np.ones((3, 3)) + (1 - alike) * np.eye(3))
    weights = np.linalg.solve(seen, across)
    found = slowness(took, DEFAULTS)
    assert found.mean == pytest.approx(float(weights @ took))
    assert found.sd == pytest.approx(sqrt(1 - float(weights @ across)))
    assert slowness((), DEFAULTS) == Bias(0.0, 1.0)


def test_a_group_that_was_quick_so_far_is_likelier_to_finish() -> None:
    quick, slow = (now(Midway(GAME, MIDDLE, took=[log(by)] * 4)).chance for by in (0.6, 1.7))
    assert quick > now(Midway(GAME, MIDDLE)).chance > slow


def test_the_slowness_learnt_is_that_of_groups_who_were_so_slow() -> None:
    """Of many groups drawn, those whose first clue took twice as long end as is told of them."""
    given = Parameters(NO_CHANCE)
    game = alone(solved_in(60), solved_in(60, "b", "a"))
    found = trials_of(Asked(game, 0, trials=400_000), given, Dice("many"))
    first = found.closed[0] / 360
    alike = (first > 1.95) & (first < 2.05)
    rest = (found.finish - found.closed[0])[alike]
    left = 400.0
    expected = float((rest <= left).mean())
    midway = Midway(game.without("a"), left, took=[log(2)])
    assert now(midway, given).chance == pytest.approx(expected, abs=0.05)


def test_a_hint_helps_most_where_most_is_left_to_solve() -> None:
    game = replace(alone(solved_in(200), solved_in(5, "b"), hints=1), pupils=2)
    found = now(Midway(game, 600.0))
    assert found.with_hint["a"] > found.chance + 0.1
    assert found.with_hint["a"] > found.with_hint["b"]


def test_there_is_no_hint_where_none_is_left() -> None:
    assert now(Midway(alone(solved_in(200)), 900.0)).with_hint == {}
    given = {"a": Spent(60.0, hints=3)}
    assert now(Midway(alone(solved_in(200), hints=2), 900.0, given)).with_hint == {}


def test_hints_that_were_given_make_what_is_left_shorter() -> None:
    game = alone(solved_in(200), hints=1)
    plain, helped = (now(Midway(game, 700.0, {"a": Spent(60.0, n)})).chance for n in (0, 1))
    assert helped > plain


def test_what_is_over_is_won() -> None:
    over = replace(alone(solved_in(9)), goal=(frozenset(),))
    assert now(Midway(over, 0.0)).chance == 1
    assert now(Midway(alone(solved_in(9)).without("a"), 1.0)).chance == 1
