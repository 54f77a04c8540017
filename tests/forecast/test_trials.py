"""The quick model plays every group as the one told as processes does, trial for trial."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from boxwright.dice import Dice
from boxwright.forecast.network import MOST_TASKS, Network, TooManyError
from boxwright.forecast.parameters import Parameters, Rules
from boxwright.forecast.plan import plan_of
from boxwright.forecast.trials import Times, Trials, play
from tests.forecast import reference_simpy
from tests.forecast.games import drawn, network, task
from tests.forecast.paired import of_group, times_for

DEFAULTS = Parameters()
RULES = Rules(power=0.5, seats=4, hint_after_s=60, hint_leaves=0.5)
GROUPS = 40


def games(count: int) -> list[Network]:
    """Return games of two to twenty-one clues, one to six pupils, nought to five hints."""
    dice = Dice("games for trials")
    return [
        drawn(dice, 2 + one, pupils=dice.between(1, 6), hints=dice.between(0, 5))
        for one in range(count)
    ]


def apart(found: Any, expected: list[list[float]] | list[float]) -> float:
    """Return by how much numbers differ at most; where one is infinite both must be."""
    one, other = np.asarray(found, np.float64), np.asarray(expected)
    assert (np.isfinite(one) == np.isfinite(other)).all()
    known = np.isfinite(one)
    return float(np.abs(one[known] - other[known]).max(initial=0))


def solving(*seconds: float, groups: int = 1) -> Times:
    """Return times of clues that are only solved."""
    solve = np.repeat(np.array(seconds, np.float64)[:, None], groups, axis=1)
    return Times(np.zeros_like(solve), np.zeros_like(solve), solve, np.zeros_like(solve))


@pytest.mark.parametrize("game", games(20), ids=lambda game: f"{len(game.tasks)} clues")
def test_equal_draws_give_the_same_game_trial_for_trial(game: Network) -> None:
    times = times_for(game, GROUPS, "paired", DEFAULTS)
    found = play(plan_of(game, DEFAULTS.rules), times)
    told = [
        reference_simpy.play(game, DEFAULTS.rules, of_group(game, times, group))
        for group in range(GROUPS)
    ]
    never = float("inf")
    assert all(one.finish is not None for one in told)
    assert apart(found.finish, [one.finish or 0.0 for one in told]) < 1e-6
    assert apart(found.idle_s, [one.idle_s for one in told]) < 1e-6
    names = game.names
    assert apart(found.opened, [[o.opened.get(n, never) for o in told] for n in names]) < 1e-6
    assert apart(found.closed, [[o.closed.get(n, never) for o in told] for n in names]) < 1e-6
    assert found.hints.tolist() == [[o.hints.get(n, 0) for o in told] for n in names]


def tangled(seed: int, clues: int) -> Network:
    """Return a game with two ways to some clues, and two clues for some things."""
    dice = Dice(f"tangled {seed}")
    game = drawn(dice, clues, pupils=dice.between(1, 12), hints=dice.between(0, 6))
    names = game.names
    for at, one in enumerate(game.tasks[1:-1], 1):
        if dice.chance(0.4):
            other = frozenset(dice.sample(names[:at], min(at, 2)))
            game = game.changed(replace(game.tasks[at], needs=(*one.needs, other)))
        elif dice.chance(0.3):
            game = game.changed(replace(one, gives=game.tasks[at - 1].gives))
    return game


@pytest.mark.parametrize("seed", range(24))
def test_a_tangled_game_is_the_same_trial_for_trial(seed: int) -> None:
    """Beyond eleven things, of which a table tells at once what follows from them."""
    game = tangled(seed, 8 + seed)
    times = times_for(game, 15, "tangled", DEFAULTS)
    found = play(plan_of(game, DEFAULTS.rules), times)
    never = float("inf")
    told = [
        reference_simpy.play(game, DEFAULTS.rules, of_group(game, times, group))
        for group in range(15)
    ]
    finish = [never if one.finish is None else one.finish for one in told]
    assert apart(found.finish, finish) < 1e-6
    closed = [[one.closed.get(name, never) for one in told] for name in game.names]
    assert apart(found.closed, closed) < 1e-6
    assert found.hints.tolist() == [[o.hints.get(name, 0) for o in told] for name in game.names]


@pytest.mark.parametrize("game", games(20)[::4], ids=lambda game: f"{len(game.tasks)} clues")
def test_single_precision_differs_by_less_than_a_hundredth_of_a_second(game: Network) -> None:
    times = times_for(game, 500, "single", DEFAULTS)
    plan = plan_of(game, DEFAULTS.rules)
    single = play(plan, Times(*(part.astype(np.float32) for part in times)))
    assert single.finish.dtype == np.float32
    assert apart(single.finish, play(plan, times).finish.tolist()) < 0.01


def test_one_pupil_does_all_one_after_the_other_in_any_game() -> None:
    game = drawn(Dice("alone"), 12, pupils=1, hints=0)
    times = times_for(game, 200, "alone", DEFAULTS)
    found = play(plan_of(game, DEFAULTS.rules), times)
    assert apart(found.finish, sum(part.sum(0) for part in times).tolist()) < 1e-6
    assert found.idle_s.max() == 0


def test_many_pupils_at_clues_for_one_take_as_long_as_the_longest() -> None:
    game = network(*(task(f"t{at}", seats=1) for at in range(8)), pupils=30)
    found = play(plan_of(game, RULES), solving(*range(10, 18)))
    assert found.finish.tolist() == [17]
    assert found.idle_s.tolist() == [30 * 17 - sum(range(10, 18))]


def test_a_game_that_cannot_be_finished_is_never_finished() -> None:
    game = network(task("a"), task("b", "c"), task("c", "b"), hints=3)
    found = play(plan_of(game, RULES), solving(500, 1, 1, groups=2))
    assert np.isinf(found.finish).all()
    assert found.closed.tolist() == [[190, 190], [float("inf")] * 2, [float("inf")] * 2]
    assert found.holds_up.tolist() == [0, 0, 0]


def test_a_goal_that_nothing_gives_is_never_reached() -> None:
    assert np.isinf(play(plan_of(network(task("a"), goal="b"), RULES), solving(5)).finish[0])
    nothing = replace(network(task("a")), goal=())
    assert np.isinf(play(plan_of(nothing, RULES), solving(5)).finish[0])


def test_a_game_without_anything_to_do_is_over_at_once() -> None:
    found = play(plan_of(network(task("a"), goal="a").without("a"), RULES), solving(groups=3))
    assert found.finish.tolist() == [0, 0, 0]


def test_no_hint_is_given_where_there_are_none_and_none_to_what_has_no_lines() -> None:
    times = solving(1000)
    for game in (network(task("a")), network(task("a", hints=0), hints=5)):
        found = play(plan_of(game, RULES), times)
        assert (found.finish.tolist(), found.hints.tolist()) == ([1000], [[0]])


def test_of_clues_to_one_thing_the_quickest_counts_and_frees_the_others() -> None:
    game = network(task("a"), replace(task("b"), gives="a"), task("c", "a"), pupils=2, goal="c")
    found = play(plan_of(game, RULES), solving(50, 8, 2))
    assert found.finish[0] == pytest.approx(8 + 2 / 2**0.5)
    assert found.closed[:, 0].tolist() == [float("inf"), 8, pytest.approx(8 + 2 / 2**0.5)]


def test_any_of_several_ways_to_a_task_will_do() -> None:
    either = replace(task("c"), needs=(frozenset({"a"}), frozenset({"b"})))
    game = network(task("a"), task("b"), either, pupils=2, goal="c")
    assert play(plan_of(game, RULES), solving(90, 10, 5)).opened[2, 0] == 10


def chain(found: Trials) -> list[int]:
    """Return how often each task held up the game."""
    counts: list[int] = found.holds_up.tolist()
    return counts


def test_a_task_that_is_never_begun_holds_up_nothing() -> None:
    """A hint comes first; then one group goes the short way, the other the long one."""
    never = replace(task("never", "key"), gives="a")
    long_way = [task("b"), task("c", "b"), task("d", "c"), replace(task("e", "d"), gives="a")]
    game = network(never, task("a"), *long_way, pupils=2, hints=1, goal="a")
    seconds = np.array([[1, 1], [70, 9000], *([[200, 200]] * 4)], np.float64)
    nothing = np.zeros_like(seconds)
    found = play(plan_of(game, RULES), Times(nothing, nothing, seconds, nothing))
    assert chain(found) == [0, 1, 1, 1, 1, 1]


def test_what_holds_up_the_game_is_the_row_of_tasks_that_fills_it() -> None:
    game = network(task("a"), task("b"), task("c", "a"), task("d", "b", "c"), pupils=3)
    alone = Rules(power=0, seats=1, hint_after_s=1e6, hint_leaves=1)
    assert chain(play(plan_of(game, alone), solving(10, 50, 20, 5, groups=2))) == [0, 2, 0, 2]
    assert chain(play(plan_of(game, alone), solving(40, 50, 20, 5, groups=3))) == [3, 0, 3, 3]


def test_a_pupil_who_is_busy_elsewhere_holds_up_the_game_too() -> None:
    game = network(task("a"), task("b"), pupils=1)
    assert chain(play(plan_of(game, RULES), solving(10, 20))) == [1, 1]


def test_the_tasks_that_hold_up_each_game_last_as_long_as_it_does() -> None:
    game = drawn(Dice("chain"), 10, pupils=3, hints=2)
    times = times_for(game, 50, "chain", DEFAULTS)
    plan = plan_of(game, DEFAULTS.rules)
    for group in range(50):
        found = play(plan, Times(*(part[:, group : group + 1] for part in times)))
        on = found.holds_up.astype(bool)
        # Each is begun when the one before it ended, so their ends are the others' beginnings.
        ends = np.sort(found.closed[on, 0])
        assert ends[-1] == found.finish[0]
        assert (found.opened[on, 0] <= np.concatenate([[0], ends[:-1]]) + 1e-9).all()


def test_more_than_can_be_reckoned_with_is_told() -> None:
    crowd = network(*(task(f"t{at}") for at in range(MOST_TASKS + 1)))
    with pytest.raises(TooManyError, match="64 are more than 63"):
        plan_of(crowd, RULES)
    with pytest.raises(TooManyError):
        plan_of(network(task("a"), pupils=61), RULES)


def test_the_largest_game_is_played_like_a_small_one() -> None:
    tasks = [task("t0"), *(task(f"t{at}", f"t{at - 1}") for at in range(1, MOST_TASKS))]
    found = play(plan_of(network(*tasks, pupils=2), RULES), solving(*range(1, MOST_TASKS + 1)))
    assert found.finish[0] == pytest.approx(sum(range(1, MOST_TASKS + 1)) / 2**0.5)
    assert chain(found) == [1] * MOST_TASKS
