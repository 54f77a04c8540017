"""Source: Taylor, Introduction to Management Science, PERT problem (critical path 1-3-5-7).

Means 24, variance 5, P(T <= 28) = .9633 (from a table; exactly .963181). Beside it the
sum and the maximum of exponentials in closed form, and the critical path by networkx.
The problem's arrows are printed as a picture: `ARROWS` are a network of its activities with
its critical path, not a copy of it. Its chance is that of a normal sum; the trials' own times
are lognormal, of the same means and variances, so that it can only nearly come out.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, log, sqrt
from statistics import NormalDist

import networkx as nx
import numpy as np
import pytest
from scipy import stats

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked
from boxwright.forecast.draws import Draws, Spreads, generator
from boxwright.forecast.network import Network, Work
from boxwright.forecast.parameters import Parameters, Rules
from boxwright.forecast.plan import Array, plan_of
from boxwright.forecast.reckoning import trials_of
from boxwright.forecast.timing import Bias, Medians
from boxwright.forecast.trials import Times, Trials, play
from tests.forecast.games import drawn, network, task

ALONE = Rules(power=0, seats=1, hint_after_s=1e6, hint_leaves=1)
TRIALS = 20_000
ACTIVITIES = {
    "1": (5, 8, 17),
    "2": (7, 10, 13),
    "3": (3, 5, 7),
    "4": (1, 3, 5),
    "5": (4, 6, 8),
    "6": (3, 3, 3),
    "7": (3, 4, 5),
}
ARROWS = {"1": "", "2": "", "3": "1", "4": "1", "5": "23", "6": "23", "7": "45"}
"""For each activity those that must be done before."""
CRITICAL = "1357"
PERT = {name: ACTIVITIES[name] for name in CRITICAL}
WITHIN = 0.012
"""How far the chance may be from the published one; that lognormals lean takes .009 of it."""


def solving(solve: Array) -> Times:
    """Return times of clues that are only solved."""
    nothing = np.zeros_like(solve)
    return Times(nothing, nothing, solve, nothing)


def played(game: Network, solve: Array) -> Trials:
    """Play a game in which each clue is for one pupil."""
    return play(plan_of(game, ALONE), solving(solve))


def row(*names: str) -> Network:
    """Return clues each of which waits for the one before."""
    return network(
        *(task(name, *names[at - 1 : at] if at else ()) for at, name in enumerate(names)), pupils=9
    )


def beside(count: int) -> Network:
    """Return clues that wait for nothing, and a pupil for each."""
    return network(*(task(f"t{at}") for at in range(count)), pupils=count)


def exponentials(*means: float) -> Array:
    """Draw exponential times of these means, a row for each."""
    chance = generator(Dice("exponentials"))
    drawn: Array = chance.standard_exponential((len(means), TRIALS))
    drawn *= np.array(means)[:, None]
    return drawn


def near(found: Array, mean: float, variance: float) -> None:
    """Hold a mean within three standard errors, and a variance within five in a hundred."""
    assert abs(found.mean() - mean) < 3 * sqrt(variance / len(found))
    assert found.var() == pytest.approx(variance, rel=0.05)


def test_a_row_of_exponentials_takes_the_sum_of_their_means_and_variances() -> None:
    found = played(row("a", "b", "c"), exponentials(6, 6, 6)).finish
    near(found, 18, 108)
    share = float((found <= 20).mean())
    error = sqrt(share * (1 - share) / TRIALS)
    assert abs(share - stats.gamma.cdf(20, 3, scale=6)) < 3 * error


@pytest.mark.parametrize(
    ("count", "mean", "variance"), [(2, 9, 45), (3, 11, 49), (4, 12.5, 51.25), (5, 13.7, 52.69)]
)
def test_exponentials_side_by_side_take_the_longest(
    count: int, mean: float, variance: float
) -> None:
    near(played(beside(count), exponentials(*[6.0] * count)).finish, mean, variance)


def test_the_longer_of_two_unlike_exponentials() -> None:
    found = played(beside(2), exponentials(4, 10)).finish
    assert abs(found.mean() - 11.142857) < 3 * found.std() / sqrt(TRIALS)


def pert_draws() -> Array:
    """Draw normal times of PERT's means and variances for the critical path."""
    chance = generator(Dice("pert"))
    rows = [
        (low + 4 * mode + high) / 6 + (high - low) / 6 * chance.standard_normal(TRIALS)
        for low, mode, high in PERT.values()
    ]
    return np.array(rows)


def test_the_published_critical_path() -> None:
    found = played(row(*PERT), pert_draws()).finish
    near(found, 24, 5)
    share = float((found <= 28).mean())
    assert abs(share - NormalDist(24, sqrt(5)).cdf(28)) < 3 * sqrt(share * (1 - share) / TRIALS)
    assert share == pytest.approx(0.9633, abs=0.005)


def moments(name: str) -> tuple[float, float]:
    """Return PERT's mean and variance of an activity."""
    low, mode, high = ACTIVITIES[name]
    return (low + 4 * mode + high) / 6, ((high - low) / 6) ** 2


def own_trials(names: str) -> Trials:
    """Play activities, a pupil for each, with the forecast's own lognormal times."""
    tasks, biases = [], {}
    for name in names:
        mean, variance = moments(name)
        log_variance = log(1 + variance / mean**2)
        one = task(name, *(need for need in ARROWS[name] if need in names))
        tasks.append(replace(one, work=Work(solving_s=mean / exp(log_variance / 2))))
        biases[name] = Bias(0, sqrt(log_variance))
    game = network(*tasks, pupils=len(names))
    sure = {f"{phase}.spread": 0.0 for phase in ("find", "read", "solve", "enter")}
    alone = Parameters(sure | {"group.seats": 1, "hint.after": 80_000})
    asked = Asked(game, 28, trials=TRIALS, biases=biases)
    return trials_of(asked, alone, Dice("taylor"))


def test_our_own_times_of_each_activity_have_its_published_mean_and_variance() -> None:
    found = own_trials("".join(ACTIVITIES))
    for at, name in enumerate(ACTIVITIES):
        took = (found.closed[at] - found.opened[at]).astype(np.float64)
        mean, variance = moments(name)
        if variance:
            near(took, mean, variance)
        else:
            assert took == pytest.approx(mean, abs=1e-4)


def test_our_own_times_along_the_critical_path_come_near_the_published_chance() -> None:
    finish = own_trials(CRITICAL).finish.astype(np.float64)
    near(finish, 24, 5)
    assert abs(float((finish <= 28).mean()) - 0.9633) < WITHIN


def test_the_whole_network_takes_hardly_longer_than_its_critical_path() -> None:
    found, path = own_trials("".join(ACTIVITIES)), own_trials(CRITICAL)
    finish = found.finish.astype(np.float64)
    assert (finish >= path.finish - 1e-3).all()  # each activity has dice of its own
    assert 24 - 3 * sqrt(5 / TRIALS) < finish.mean() < 24.2
    assert abs(float((finish <= 28).mean()) - 0.9633) < WITHIN
    held = dict(zip(ACTIVITIES, found.holds_up / TRIALS, strict=True))
    assert min(held[name] for name in CRITICAL) > 0.9
    assert max(held[name] for name in ACTIVITIES if name not in CRITICAL) < 0.1


@pytest.mark.parametrize("seed", range(20))
def test_with_a_pupil_for_each_clue_the_critical_path_decides(seed: int) -> None:
    game = drawn(Dice(f"critical {seed}"), 4 + seed, pupils=4 + seed, hints=0)
    seconds = {one.name: 10.0 + Dice(f"{seed}").child(one.name).below(90) for one in game.tasks}
    graph = nx.DiGraph()
    for one in game.tasks:
        graph.add_edge("start", one.name, weight=seconds[one.name])
        for need in next(iter(one.needs)):
            graph.add_edge(need, one.name, weight=seconds[one.name])
    found = played(game, np.array([[seconds[name]] for name in game.names]))
    assert found.finish[0] == nx.dag_longest_path_length(graph)
    path = {game.names[at] for at in np.flatnonzero(found.holds_up)}
    assert sum(seconds[name] for name in path) == found.finish[0]


def lognormal(spreads: Spreads, classes: int = TRIALS, groups: int = 1) -> Times:
    """Draw times of two clues whose medians are all eight seconds."""
    medians = [Medians(8, 8, 8, 8), Medians(8, 8, 8, 8)]
    return Draws(["a", "b"], medians, spreads, Dice("lognormal")).times(classes, groups)


def test_times_have_the_moments_of_the_lognormal() -> None:
    times = lognormal(Spreads(0.5, 0.5, 0.5, 0.5, 0.4, 0.3))
    known = stats.lognorm(0.5, scale=8)
    assert (known.mean(), known.var()) == pytest.approx((9.065188, 23.340535))
    for part in times:
        near(part[0].astype(np.float64), known.mean(), known.var())
        assert float(np.quantile(part[0], 0.9)) == pytest.approx(known.ppf(0.9), rel=0.02)
        assert float((part[0] <= 12).mean()) == pytest.approx(0.7912971, abs=0.01)


def test_without_spread_every_time_is_its_median() -> None:
    times = lognormal(Spreads(0, 0, 0, 0, 0.4, 0.3), 10)
    assert all((part == 8).all() for part in times)


def likeness(one: Array, other: Array) -> float:
    """Return how alike the logarithms of two rows of times are."""
    return float(np.corrcoef(np.log(one), np.log(other))[0, 1])


def test_a_group_quick_at_one_clue_is_quick_at_another_and_as_its_class() -> None:
    times = lognormal(Spreads(0.5, 0.5, 0.5, 0.5, group=0.4, of_class=0.3), TRIALS, 2)
    assert likeness(times.solve[0], times.solve[1]) == pytest.approx(0.4, abs=0.02)
    assert likeness(times.solve[0], times.read[1]) == pytest.approx(0.4, abs=0.02)
    assert likeness(times.find[0], times.find[1]) == pytest.approx(0, abs=0.02)
    first, second = times.solve[0][::2], times.solve[1][1::2]
    assert likeness(first, second) == pytest.approx(0.4 * 0.3, abs=0.02)


def test_wrong_tries_and_rests_cost_what_the_geometric_law_says() -> None:
    sure = Spreads(0, 0, 0, 0, 0, 0)
    one = Medians(0, 0, 0, 20, wrong=0.5, again=10, wrong_tries=2, rest=60)
    enter = Draws(["a"], [one], sure, Dice("wrong")).times(TRIALS, 1).enter[0]
    # Wrong tries are 1 on average; pairs of them, 1/4 + 1/16 + ... = 1/3.
    assert abs(enter.mean() - (20 + 10 + 60 / 3)) < 3 * enter.std() / sqrt(TRIALS)
    assert float((enter == 20).mean()) == pytest.approx(0.5, abs=0.02)
