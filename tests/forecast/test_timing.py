"""What a clue takes before chance: it follows from the clue, the age and the parameters."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import log
from statistics import NormalDist

import pytest

from boxwright.forecast.network import Entry, Task, Work
from boxwright.forecast.parameters import ALL, GUESS, KNOWN, Parameters
from boxwright.forecast.timing import Medians, medians, reading_rate
from boxwright.puzzles.contract import Effort
from boxwright.puzzles.shelf import all_kinds

DEFAULTS = Parameters()
WORK = Work(Effort(120, 10, 5, 1, "codes"), ("given", "room"), Entry("number-wheels", 3))


def of(work: Work, age: float = 12, parameters: Parameters = DEFAULTS) -> Medians:
    """Return what a task of this work takes."""
    return medians(Task("a", "a", work), age, parameters)


def test_each_phase_follows_from_the_clue() -> None:
    found = of(WORK, age=9.5)
    assert found.find == 5 + 90
    assert found.read == pytest.approx(120 * 1.5 / 120 * 60)
    assert found.solve == pytest.approx((10 * 2 + 5 * 6) * 1.2)
    assert found.enter == 10 + 3 * 4
    assert found.wrong == 0.15
    assert found.again == pytest.approx(12 + 0.15 * found.solve)


def test_deeper_sheets_and_younger_pupils_take_longer() -> None:
    deeper = replace(WORK, effort=Effort(120, 10, 5, 4, "codes"))
    assert of(deeper).solve > of(WORK).solve
    assert of(WORK, age=8).solve > of(WORK, age=12).solve == of(WORK, age=15).solve


def test_a_key_is_never_the_wrong_answer_and_a_thing_is_only_fetched() -> None:
    assert of(replace(WORK, entry=Entry("key", 1))).wrong == 0
    fetched = of(replace(WORK, entry=None, fetches=True))
    assert (fetched.wrong, fetched.enter) == (0, 30)
    assert of(replace(WORK, entry=None)).enter == 0


def test_a_word_for_the_time_counts_more_than_the_effort() -> None:
    assert of(replace(WORK, solving_s=200)).solve == 200


def test_reading_rates_are_the_published_ones_and_lie_on_lines_between() -> None:
    assert [reading_rate(age, DEFAULTS) for age in (6.5, 8.5, 11.5, 18)] == [29, 97, 145, 183]
    assert reading_rate(9, DEFAULTS) == (97 + 120) / 2
    assert reading_rate(4, DEFAULTS) == 29
    assert reading_rate(40, DEFAULTS) == 183


def test_the_spread_of_reading_is_that_of_the_published_percentiles() -> None:
    """Winter, grade 4: the 10th percentile reads 71 words a minute, the 90th 168."""
    tenth = NormalDist().inv_cdf(0.9)
    assert DEFAULTS["read.spread"] == pytest.approx(log(168 / 71) / (2 * tenth), abs=0.005)


def test_every_parameter_tells_where_it_comes_from() -> None:
    assert len(KNOWN) == len(ALL)
    assert {one.name for one in ALL if one.source != GUESS} == {
        *(f"read.grade-{grade}" for grade in range(1, 7)),
        "read.adults",
        "read.spread",
    }


def test_parameters_can_be_set_by_name_to_what_makes_sense() -> None:
    assert of(WORK, parameters=Parameters({"solve.mark": 0, "solve.step-codes": 0})).solve == 0
    for name, value in (("solve.mrak", 1.0), ("solve.mark", -1.0), ("group.alike", 1.5)):
        with pytest.raises(ValueError, match=name):
            Parameters({name: value})


def test_a_group_that_splits_up_is_quicker_by_less_than_its_number() -> None:
    speeds = [DEFAULTS.rules.speed(n) for n in range(1, 6)]
    gains = [after - before for before, after in pairwise(speeds)]
    assert speeds[0] == 1
    assert gains == sorted(gains, reverse=True)
    assert 0 < gains[-1] < gains[0] < 1


def test_every_skill_on_the_shelf_has_its_own_seconds_a_step() -> None:
    skills = {skill for _, kind in all_kinds() for skill in kind.FACTS.skill if not kind.FACTS.own}
    assert {f"solve.step-{skill}" for skill in skills} <= set(KNOWN)
