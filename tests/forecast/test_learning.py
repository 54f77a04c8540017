"""What tables teach: exact by other ways to reckon it, and as strong as it should be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product
from math import exp, log, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import multivariate_normal, norm

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked
from boxwright.forecast.learning import Lesson, Observation, Subject, learn, unhinted
from boxwright.forecast.network import Task
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array
from boxwright.forecast.reckoning import trials_of
from boxwright.forecast.timing import Bias
from tests.forecast.games import network, task

USUAL = Parameters()
A = Subject("mill", "a", "nonogram", "easier")
B = Subject("mill", "b", "nonogram", "easier")
C = Subject("mill", "c", "nonogram", "harder")
D = Subject("mill", "d", "pigpen", "harder")
ALL = (A, B, C, D)
M = 4.0


def saw(
    subject: Subject, session: str, group: str, bias: float, hints: tuple[float, ...] = ()
) -> Observation:
    """Return a time that lies so far from the four minutes expected, in logarithms."""
    return Observation(subject, session, group, M * exp(bias), M, hints)


def classes(count: int, tables: int, bias: float, *subjects: Subject) -> list[Observation]:
    """Return as many classes of so many tables, all of whom took as much longer."""
    return [
        saw(subject, f"s{one}", f"g{table}", bias)
        for one, table in product(range(count), range(tables))
        for subject in subjects
    ]


def weight(seen: Sequence[Observation], subject: Subject = A) -> Lesson:
    return learn(seen, [subject], USUAL)[subject]


# exactness


def test_one_clue_alone_is_the_textbook_normal_with_known_variance() -> None:
    """Gelman et al., Bayesian Data Analysis, 3rd edition, section 2.5, (2.11) and (2.12)."""
    tau, sigma, seen = 0.5, 0.3, (0.2, 0.5, -0.1, 0.35)
    alone = dict.fromkeys(("learn.kind", "learn.level", "learn.class", "learn.group"), 0.0)
    parameters = Parameters(alone | {"learn.clue": tau, "learn.chance": sigma})
    rows = [saw(A, "s", f"g{at}", bias) for at, bias in enumerate(seen)]
    found = learn(rows, [A], parameters)[A]
    precision = 1 / tau**2 + len(seen) / sigma**2
    assert found.bias.mean == pytest.approx(sum(seen) / sigma**2 / precision)
    assert found.bias.sd == pytest.approx(1 / sqrt(precision))
    assert found.of_clue == pytest.approx(1 - 1 / precision / tau**2)


def draws(seed: int, count: int) -> list[Observation]:
    """Return observations of any clues by any groups, some with hints."""
    dice = Dice(f"learning {seed}")
    return [
        saw(
            dice.pick(ALL),
            f"s{dice.below(3)}",
            f"g{dice.below(2)}",
            (dice.below(200) - 100) / 100,
            tuple(M * 0.2 * (1 + at) for at in range(dice.below(3))),
        )
        for _ in range(count)
    ]


def effects(one: Observation | Subject) -> list[tuple[str, object]]:
    """Return the independent effects that make up a clue's bias, or what was seen of it."""
    of = one.subject if isinstance(one, Observation) else one
    own: list[tuple[str, object]] = [
        ("kind", of.kind),
        ("level", (of.kind, of.level)),
        ("clue", of),
    ]
    if isinstance(one, Observation):
        own += [("class", one.session), ("group", (one.session, one.group))]
    return own


def covariance(left: Observation | Subject, right: Observation | Subject) -> float:
    """Return the prior covariance from shared effects alone: the other way to reckon it."""
    shared = set(effects(left)) & set(effects(right))
    variance = sum(USUAL[f"learn.{sort}"] ** 2 for sort, _ in shared)
    if left is right and isinstance(left, Observation):
        variance += USUAL["learn.chance"] ** 2 + len(left.hints) * USUAL["learn.hint"] ** 2
    return variance


def table(rows: Sequence[Observation | Subject], columns: Sequence[Observation | Subject]) -> Array:
    return np.array([[covariance(one, other) for other in columns] for one in rows])


def together(found: Mapping[Subject, Lesson]) -> Array:
    """Return the covariance of biases as their doubts are put together."""
    names = dict.fromkeys(name for one in found.values() for name in one.bias.doubts)
    parts = np.array([[one.bias.doubts.get(name, 0) for name in names] for one in found.values()])
    whole: Array = parts @ parts.T
    return whole


@pytest.mark.parametrize("seed", range(8))
def test_it_is_the_general_conditional_of_one_large_normal(seed: int) -> None:
    rows = draws(seed, 5 + 4 * seed)
    seen = np.array([log(unhinted(one, USUAL["hint.leaves"]) / M) for one in rows])
    whole, across, own = table(rows, rows), table(ALL, rows), table(ALL, ALL)
    inverse = np.linalg.inv(whole)
    mean, after = across @ inverse @ seen, own - across @ inverse @ across.T
    found = learn(rows, ALL, USUAL)
    for at, subject in enumerate(ALL):
        assert found[subject].bias.mean == pytest.approx(mean[at])
        assert found[subject].bias.sd == pytest.approx(sqrt(after[at, at]))
        assert found[subject].of_clue == pytest.approx(1 - after[at, at] / own[at, at])
    assert together(found) == pytest.approx(after, abs=1e-9)


def test_before_any_class_clues_are_as_doubtful_together_as_they_are_alike() -> None:
    assert together(learn([], ALL, USUAL)) == pytest.approx(table(ALL, ALL), abs=1e-9)


def test_it_is_where_scipys_joint_density_is_highest() -> None:
    rows = draws(3, 12)
    seen = [log(unhinted(one, USUAL["hint.leaves"]) / M) for one in rows]
    both: list[Observation | Subject] = [A, *rows]
    joint = multivariate_normal(np.zeros(len(both)), table(both, both))
    found = learn(rows, [A], USUAL)[A].bias

    def density(bias: float) -> float:
        return float(joint.logpdf([bias, *seen]))

    top = density(found.mean)
    assert all(density(found.mean + step) < top for step in (-0.01, 0.01))
    # A normal falls by a half of a logarithm at one standard deviation.
    assert top - density(found.mean + found.sd) == pytest.approx(0.5)


# what was not done


def leaves(subject: Subject, session: str, group: str, bias: float) -> Observation:
    """Return that a clue was not done after a time that lies so far from the four minutes."""
    return replace(saw(subject, session, group, bias), done=False)


@pytest.mark.parametrize("least", [-1.5, 0.0, 0.6, 2.0])
def test_one_clue_not_done_is_the_normal_cut_off_below_by_quadrature(least: float) -> None:
    """Mean and variance of the bias, whose density is its own through what then lies beyond."""
    prior, rest = covariance(A, A), USUAL["learn.class"] ** 2 + USUAL["learn.group"] ** 2
    rest += USUAL["learn.chance"] ** 2

    def moment(power: int) -> float:
        def density(bias: float) -> float:
            beyond = norm.sf(least, loc=bias, scale=sqrt(rest))
            return float(bias**power * norm.pdf(bias, scale=sqrt(prior)) * beyond)

        return float(quad(density, -8, 8, points=(0, least), limit=200)[0])

    mean = moment(1) / moment(0)
    found = weight([leaves(A, "s", "g", least)]).bias
    assert found.mean == pytest.approx(mean, rel=1e-6)
    assert found.sd == pytest.approx(sqrt(moment(2) / moment(0) - mean**2), rel=1e-6)


def test_beside_what_was_done_it_is_as_drawing_at_random_has_it() -> None:
    """Of many draws of all numbers, given what was done, those are kept that take longer."""
    rows = [saw(B, "s", "g", 0.4), saw(C, "s", "h", 0.1)]
    late = leaves(A, "s", "g", 0.7)
    seen = np.array([log(one.minutes / M) for one in rows])
    numbers: list[Observation | Subject] = [*ALL, late]
    across, inverse = table(numbers, rows), np.linalg.inv(table(rows, rows))
    mean, left = across @ inverse @ seen, table(numbers, numbers) - across @ inverse @ across.T
    drawn = np.random.default_rng(5).multivariate_normal(mean, left, 400_000)
    kept = drawn[drawn[:, -1] > 0.7]
    found = learn([*rows, late], ALL, USUAL)
    for at, subject in enumerate(ALL):
        error = kept[:, at].std() / sqrt(len(kept))
        assert abs(found[subject].bias.mean - kept[:, at].mean()) < 4 * error
        assert abs(found[subject].bias.sd - kept[:, at].std()) < 4 * error


def test_a_clue_not_done_seems_slow_and_the_longer_the_slower() -> None:
    means = [weight([leaves(A, "s", "g", least)]).bias.mean for least in (-9, 0, 1, 3, 60)]
    assert means == sorted(means)
    assert means[0] == pytest.approx(0, abs=1e-6)
    assert means[1] > 0.05
    assert np.isfinite(means).all()


def test_without_what_was_not_done_the_slowest_clue_would_seem_quick() -> None:
    """Forty classes with a bell after what the clue takes the middling table."""
    true, bell = 0.8, 0.8
    chance = np.random.default_rng(8)
    rows = []
    for session in range(40):
        of_class = float(chance.normal(0, USUAL["learn.class"]))
        for group in range(4):
            own = of_class + float(chance.normal(0, USUAL["learn.group"]))
            took = true + own + float(chance.normal(0, USUAL["learn.chance"]))
            made = saw if took < bell else leaves
            rows.append(made(A, f"s{session}", f"g{group}", min(took, bell)))
    whole, part = weight(rows).bias, weight([one for one in rows if one.done]).bias
    assert abs(whole.mean - true) < 3 * whole.sd
    assert true - part.mean > 3 * part.sd


def test_the_order_of_classes_makes_no_difference() -> None:
    rows = draws(5, 30)
    forth, back = learn(rows, ALL, USUAL), learn(rows[::-1], ALL, USUAL)
    for subject in ALL:
        assert forth[subject].bias.mean == pytest.approx(back[subject].bias.mean)
        assert forth[subject].bias.sd == pytest.approx(back[subject].bias.sd)


# how much is learnt


def test_without_data_a_clue_is_as_reckoned_and_in_doubt() -> None:
    found = weight([])
    assert found.bias.mean == 0
    assert found.bias.sd == pytest.approx(sqrt(0.3**2 + 0.2**2 + 0.2**2))
    assert (found.of_clue, found.of_level, found.of_kind) == (0, 0, 0)


def test_ten_tables_of_one_class_move_it_less_than_one_of_each_of_ten_classes() -> None:
    one, ten = weight(classes(1, 10, 0.5, A)), weight(classes(10, 1, 0.5, A))
    assert 0 < one.bias.mean < ten.bias.mean < 0.5
    assert one.of_clue < ten.of_clue
    assert weight(classes(1, 1, 0.5, A)).bias.mean < one.bias.mean


def test_however_many_tables_of_one_class_leave_its_own_effect_in_doubt() -> None:
    prior, of_class = weight([]).bias.sd ** 2, USUAL["learn.class"] ** 2
    limit = 0.5 * prior / (prior + of_class)
    assert weight(classes(1, 400, 0.5, A)).bias.mean == pytest.approx(limit, rel=0.01)
    assert weight(classes(400, 1, 0.5, A)).bias.mean == pytest.approx(0.5, rel=0.01)


def test_a_clue_teaches_its_kind_and_level_more_than_its_kind_and_others_nothing() -> None:
    found = learn(classes(5, 2, 0.5, A), ALL, USUAL)
    own, alike, other = found[A].bias.mean, found[B].bias.mean, found[C].bias.mean
    assert own > alike > other > 0
    assert found[D] == weight([], D)
    assert found[A].of_clue > found[A].of_level > found[A].of_kind > 0


def test_a_class_that_is_slow_at_everything_moves_each_clue_less() -> None:
    alone = learn(classes(1, 1, 0.5, A), ALL, USUAL)[D].bias.mean
    both = learn(classes(1, 1, 0.5, A, D), ALL, USUAL)
    assert alone == 0
    assert both[A].bias.mean < weight(classes(1, 1, 0.5, A)).bias.mean


def test_what_a_hint_shortened_is_made_as_long_as_it_would_have_been() -> None:
    assert unhinted(saw(A, "s", "g", 0), 0.4) == pytest.approx(M)
    assert unhinted(saw(A, "s", "g", 0, (3.0,)), 0.5) == pytest.approx(3 + 1 / 0.5)
    assert unhinted(saw(A, "s", "g", 0, (3.0, 1.0)), 0.5) == pytest.approx(1 + 2 / 0.5 + 1 / 0.25)
    assert unhinted(saw(A, "s", "g", 0, (9.0,)), 0.5) == pytest.approx(M)


def test_a_time_with_a_hint_counts_for_less() -> None:
    plain, hinted = saw(A, "s", "g", 0.5), saw(A, "s", "g", 0.5, (M * exp(0.5),))
    assert weight([hinted]).of_clue < weight([plain]).of_clue


def test_parameters_without_doubt_learn_nothing() -> None:
    sure = Parameters(dict.fromkeys(("learn.kind", "learn.level", "learn.clue"), 0.0))
    found = learn(classes(3, 3, 0.5, A), [A], sure)[A]
    assert (found.bias, found.of_clue) == (Bias(0, 0), 0)


# simulated classes


def simulated(seed: int, count: int) -> tuple[dict[Subject, float], list[Observation]]:
    """Draw true biases from the model, and what so many classes of four tables show of them."""
    chance = np.random.default_rng(seed)

    def normal(part: str) -> float:
        return float(chance.normal(0, USUAL[f"learn.{part}"]))

    kinds = {kind: normal("kind") for kind in ("nonogram", "pigpen")}
    levels = {
        (kind, level): kinds[kind] + normal("level")
        for kind, level in product(kinds, ("easier", "harder"))
    }
    true = {one: levels[one.kind, one.level] + normal("clue") for one in ALL}
    rows = []
    for session in range(count):
        of_class = normal("class")
        for group in range(4):
            own = of_class + normal("group")
            rows += [
                saw(one, f"s{session}", f"g{group}", true[one] + own + normal("chance"))
                for one in ALL
            ]
    return true, rows


@pytest.mark.parametrize("seed", range(6))
def test_many_classes_recover_the_true_biases_within_three_standard_errors(seed: int) -> None:
    true, rows = simulated(seed, 60)
    found = learn(rows, ALL, USUAL)
    for subject in ALL:
        assert abs(found[subject].bias.mean - true[subject]) < 3 * found[subject].bias.sd
        assert found[subject].bias.sd < 0.04
        assert found[subject].of_clue > 0.99


def test_its_doubt_is_as_large_as_its_errors() -> None:
    """Over many worlds, eight in ten true biases lie in the band that is told for eight in ten."""
    inside = []
    for seed in range(100, 300):
        true, rows = simulated(seed, 2)
        for subject, one in learn(rows, ALL, USUAL).items():
            inside.append(abs(one.bias.mean - true[subject]) < 1.2816 * one.bias.sd)
    error = sqrt(0.8 * 0.2 / 200)  # clues of one world are alike: counted as one
    assert abs(np.mean(inside) - 0.8) < 3 * error


# in the trials


def spread_of(bias: Bias, groups: int = 1) -> Array:
    """Return the logarithms of what a clue takes that is known so well; classes are rows."""
    sure = Parameters(
        {f"{phase}.spread": 0 for phase in ("find", "read", "solve", "enter")}
        | {"wrong.ordinary": 0, "enter.walk": 0, "enter.number-wheels": 0}
    )
    one = task("a")
    game = network(_solved_in(one, 100.0))
    asked = Asked(game, 0, groups, trials=20_000, biases={"a": bias})
    finish = trials_of(asked, sure, Dice("bias")).finish.astype(float)
    logs: Array = np.log(finish / 100).reshape(-1, groups)
    return logs


def _solved_in(one: Task, seconds: float) -> Task:
    return replace(one, work=replace(one.work, solving_s=seconds))


def test_a_bias_makes_a_clue_longer_by_its_factor_and_less_certain_by_its_doubt() -> None:
    assert spread_of(Bias(0.4, 0)) == pytest.approx(0.4, abs=1e-4)
    doubtful = spread_of(Bias(0.4, 0.3))
    assert abs(doubtful.mean() - 0.4) < 3 * 0.3 / sqrt(doubtful.size)
    assert doubtful.std() == pytest.approx(0.3, rel=0.02)


def test_clues_that_are_doubtful_together_are_long_together() -> None:
    """Two clues one after the other, of one kind and level, of one kind, of two kinds."""
    sure = Parameters(
        {f"{phase}.spread": 0 for phase in ("find", "read", "solve", "enter")}
        | {"wrong.ordinary": 0, "enter.walk": 0, "enter.number-wheels": 0}
    )
    game = network(_solved_in(task("a"), 100.0), _solved_in(task("b", "a"), 100.0), goal="b")

    def ends(one: Subject, other: Subject) -> Array:
        found = learn([], (one, other), USUAL)
        biases = {"a": found[one].bias, "b": found[other].bias}
        trials = trials_of(Asked(game, 0, trials=20_000, biases=biases), sure, Dice("bias"))
        logs: Array = np.log(np.diff(trials.closed, axis=0, prepend=0).astype(float) / 100)
        return logs

    for other in (B, C, D):
        found = float(np.corrcoef(ends(A, other))[0, 1])
        expected = covariance(A, other) / covariance(A, A)
        assert abs(found - expected) < 3 * (1 - expected**2) / sqrt(20_000)


def test_a_doubt_is_the_same_for_all_groups_of_a_class() -> None:
    logs = spread_of(Bias(0, 0.3), groups=4)
    assert np.ptp(logs, axis=1) == pytest.approx(0, abs=1e-4)
    assert logs[:, 0].std() == pytest.approx(0.3, rel=0.05)
