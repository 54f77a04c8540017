"""What a teacher asks of the trials: chances with their errors, spreads, what holds up."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt
from typing import Any

import numpy as np
import pytest

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, Forecast
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.reckoning import blocks, forecast, spreads, trials_of
from tests.forecast import reference_simpy
from tests.forecast.games import drawn, network, task
from tests.forecast.paired import of_group, times_for

DEFAULTS = Parameters()
SURE = Parameters(
    {f"{phase}.spread": 0 for phase in ("find", "read", "solve", "enter")}
    | {f"wrong.{level}": 0 for level in ("easier", "ordinary", "harder", "hardest")}
)
TWO = network(task("a"), task("b", "a"), pupils=2, goal="b")


def told(game: Network, play_s: float, parameters: Parameters = DEFAULTS, **more: Any) -> Forecast:
    """Return the forecast of a game from one seed."""
    return forecast(Asked(game, play_s, **more), parameters, Dice("answers"))


def drawn_games() -> list[Network]:
    """Return twenty games of four to thirteen clues."""
    dice = Dice("games for answers")
    return [
        drawn(dice, 4 + one // 2, pupils=dice.between(1, 5), hints=dice.between(0, 4))
        for one in range(20)
    ]


@pytest.mark.parametrize("seed", range(20))
def test_mean_and_chance_are_those_of_the_processes_within_three_errors(seed: int) -> None:
    game, groups = drawn_games()[seed], 150
    times = times_for(game, groups, f"other chance {seed}", DEFAULTS)
    ends = [
        reference_simpy.play(game, DEFAULTS.rules, of_group(game, times, group)).finish
        for group in range(groups)
    ]
    slow = np.array(ends, float)
    quick = trials_of(Asked(game, 0), DEFAULTS, Dice("answers")).finish.astype(float)
    assert abs(quick.mean() - slow.mean()) < 3 * hypot(
        slow.std() / sqrt(groups), quick.std() / sqrt(len(quick))
    )
    play_s = float(np.median(slow)) * 1.1
    share = float((slow <= play_s).mean())
    found = told(game, play_s)
    error = sqrt(share * (1 - share) / groups + found.one.error**2)
    assert abs(found.one.value - share) < 3 * error


def test_a_game_without_chance_ends_when_it_must() -> None:
    # Each lock: the walk and three wheels, four seconds each, whoever helps.
    found = told(TWO, 44, SURE, trials=100)
    assert (found.finish.p10, found.finish.p90) == (44, 44)
    assert found.one.value == found.all.value == 1
    assert told(TWO, 43, SURE, trials=100).one.value == 0
    assert found.first_lock.p50 == 22
    assert [(clue.opens.p50, clue.closes.p50) for clue in found.clues] == [(0, 22), (22, 44)]
    assert [clue.holds_up for clue in found.clues] == [1, 1]


def test_certainty_still_has_an_error() -> None:
    assert 0 < told(TWO, 44, SURE, trials=100).one.error < 0.11


def test_pupils_without_a_seat_have_nothing_to_do() -> None:
    alone = network(task("a", seats=1), pupils=4)
    assert told(alone, 60, SURE, trials=10).idle == pytest.approx(3 / 4)
    assert told(replace(alone, pupils=1), 60, SURE, trials=10).idle == 0


def test_what_never_happens_is_told_as_never() -> None:
    found = told(network(task("a", "b"), task("b", "a")), 1e8, trials=10)
    assert (found.finish.p50, found.first_lock.p50, found.idle) == (None, None, None)
    assert found.one.value == 0
    assert found.clues[0].opens.p10 is None


def test_the_first_lock_is_not_a_thing_that_is_fetched() -> None:
    fetched = replace(task("a"), work=replace(task("a").work, entry=None))
    found = told(network(fetched, task("b", "a")), 1000, SURE, trials=10)
    assert found.first_lock.p50 == found.clues[1].closes.p50
    assert told(network(fetched), 1000, SURE, trials=10).first_lock.p50 is None


def test_all_groups_finish_less_often_than_one_but_more_often_than_strangers_would() -> None:
    game = drawn_games()[9]
    middle = told(game, 1).finish.p50
    assert middle is not None
    found = told(game, middle, Parameters({"class.alike": 0.8}), groups=4, trials=20_000)
    assert found.one.value**4 + 3 * found.all.error < found.all.value < found.one.value
    strangers = told(game, middle, Parameters({"class.alike": 0}), groups=4, trials=20_000)
    assert strangers.all.value == pytest.approx(strangers.one.value**4, abs=4 * found.all.error)


def test_groups_of_one_class_are_no_so_many_trials() -> None:
    """The error of one group's chance counts classes: likeness makes it larger."""
    game = drawn_games()[9]
    middle = told(game, 1).finish.p50 or 0.0
    alike = told(game, middle, Parameters({"class.alike": 1, "group.alike": 1}), groups=5)
    strangers = told(game, middle, Parameters({"class.alike": 0}), groups=5)
    assert alike.one.error > 1.3 * strangers.one.error


def test_the_error_is_that_of_repeating_it_with_other_dice() -> None:
    game = drawn_games()[5]
    asked = Asked(game, told(game, 1).finish.p50 or 0.0, groups=2, trials=400)
    again = [forecast(asked, DEFAULTS, Dice(f"again {at}")).one for at in range(200)]
    assert float(np.std([one.value for one in again])) == pytest.approx(again[0].error, rel=0.2)


def test_the_same_dice_give_the_same_forecast() -> None:
    game = drawn_games()[3]
    assert told(game, 1500) == told(game, 1500)
    assert told(game, 1500) != forecast(Asked(game, 1500), DEFAULTS, Dice("others"))


def test_hints_are_counted_for_the_group_and_for_each_clue() -> None:
    found = told(drawn(Dice("hints"), 8, hints=3), 1500)
    assert 0 < found.hints <= 3
    assert sum(clue.hints for clue in found.clues) == pytest.approx(found.hints)


def test_the_last_clue_always_holds_up_the_game_and_the_first_ones_share_it() -> None:
    found = told(drawn_games()[15], 1500)
    assert found.clues[-1].holds_up == 1
    free = [clue for clue in found.clues if clue.opens.p90 == 0]
    assert sum(clue.holds_up for clue in free) >= 1 - 1e-9


def test_spreads_are_numbers_that_came_up() -> None:
    rows = np.array([[5.0, 1, 4, 2, 3, 10, 9, 8, 7, 6], [1.0] * 4 + [np.inf] * 6])
    ten, some = spreads(rows)
    assert (ten.p10, ten.p50, ten.p90) == (1, 5, 9)
    assert (some.p10, some.p50, some.p90) == (1, None, None)


@pytest.mark.parametrize(
    ("trials", "groups", "expected"),
    [(10_000, 1, [10_000]), (25_000, 1, [10_000, 10_000, 5_000]), (100, 6, [16]), (1, 6, [1])],
)
def test_trials_come_in_whole_classes_and_blocks(
    trials: int, groups: int, expected: list[int]
) -> None:
    assert list(blocks(trials, groups)) == expected


def test_blocks_are_put_side_by_side() -> None:
    found = told(drawn_games()[2], 1500, trials=25_000)
    assert found.trials == 25_000
    part = told(drawn_games()[2], 1500, trials=10_000)
    assert abs(found.one.value - part.one.value) < 4 * part.one.error
    assert sum(clue.hints for clue in found.clues) == pytest.approx(found.hints)


def test_sheets_lie_about_from_when_a_clue_opens_until_it_is_done() -> None:
    two, one = replace(task("a"), papers=2), replace(task("b", "a"), papers=1)
    chain = network(two, one, replace(task("c", "a"), papers=4), pupils=3)
    assert told(chain, 999, SURE, trials=10).papers == 5
    assert told(replace(chain, tasks=(two, one), goal=TWO.goal), 999, SURE, trials=10).papers == 2


@pytest.mark.parametrize("seed", range(4))
def test_the_most_sheets_at_once_are_those_between_opening_and_closing(seed: int) -> None:
    game = drawn_games()[5 * seed]
    game = replace(game, tasks=tuple(replace(one, papers=1) for one in game.tasks))
    found = trials_of(Asked(game, 0, trials=200), DEFAULTS, Dice("papers"))
    at_once = (found.opened[:, None] <= found.opened) & (found.opened < found.closed[:, None])
    assert found.loose.tolist() == at_once.sum(0).max(0).tolist()


def test_it_is_told_how_often_no_hint_is_left() -> None:
    slow = Parameters({"hint.after": 1})
    assert told(replace(TWO, hints=1), 999, slow, trials=50).no_hint_left == 1
    assert told(replace(TWO, hints=9), 999, slow, trials=50).no_hint_left == 0
    assert told(TWO, 999, slow, trials=50).no_hint_left == 0
