"""What a task takes for one pupil of some age, before chance: seconds by phase.

Finding and solving go quicker with more pupils; reading and entering do not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from itertools import pairwise
from math import exp
from typing import TypeAlias

from boxwright.forecast.network import Network, Task, Work
from boxwright.forecast.parameters import KNOWN, Parameters
from boxwright.frozen import frozen_value

MINUTE = 60.0
GROWN = 12.0
"""From this age on, solving gets no quicker."""

# The middle of each grade's year, and adults.
AGES = {f"read.grade-{grade}": grade + 5.5 for grade in range(1, 7)} | {"read.adults": 18.0}


@frozen_value
class Medians:
    """Median seconds of each phase, the chance of a wrong try, and what each one costs."""

    find: float
    read: float
    solve: float
    enter: float
    wrong: float = 0.0
    again: float = 0.0
    wrong_tries: int = 0
    rest: float = 0.0

    def longer(self, factor: float) -> Medians:
        """Return all that is not done at a lock so many times as long."""
        find, read, solve = (factor * one for one in (self.find, self.read, self.solve))
        return replace(self, find=find, read=read, solve=solve)


@frozen_value
class Bias:
    """How far a clue's times lie from what is reckoned, in logarithms, and the doubt about it.

    `doubts`: what the deviation is put together from, each by the name of a chance (standard
    normal, apart from all others) and how much of it: clues that are doubtful together share
    some. None are named: it is the clue's own.
    """

    mean: float
    sd: float
    doubts: Mapping[str, float] = field(default_factory=dict)

    def doubts_of(self, name: str) -> Mapping[str, float]:
        """Return the doubts, where the bias is that of the clue `name`; none where it is sure."""
        return self.doubts or ({name: self.sd} if self.sd else {})


Biases: TypeAlias = Mapping[str, Bias]
"""By the task; one that is not there is as reckoned, without doubt."""
UNBIASED = Bias(0.0, 0.0)


def medians_of(
    network: Network, parameters: Parameters, biases: Biases | None = None
) -> tuple[Medians, ...]:
    """Return what each task takes, in the network's order."""
    age, known = sum(network.ages) / 2, biases or {}
    return tuple(
        medians(task, age, parameters).longer(exp(known.get(task.name, UNBIASED).mean))
        for task in network.tasks
    )


def medians(task: Task, age: float, parameters: Parameters) -> Medians:
    """Return what `task` takes."""
    work, entry = task.work, task.work.entry
    solve = solving_s(work, age, parameters)
    one_try = try_s(work, parameters)
    fetch = parameters["enter.fetch"] if work.fetches else 0.0
    keyed = entry is None or entry.mechanism == "key"
    return Medians(
        find=sum(parameters[f"find.{one}"] for one in work.hiding),
        read=work.effort.words * parameters["read.again"] * MINUTE / reading_rate(age, parameters),
        solve=solve,
        enter=one_try + (parameters["enter.walk"] if entry else fetch),
        wrong=0.0 if keyed else parameters[f"wrong.{work.level}"],
        again=one_try + solve * parameters["wrong.looking-again"],
        wrong_tries=entry.wrong_tries if entry else 0,
        rest=float(entry.rest_s) if entry else 0.0,
    )


def try_s(work: Work, parameters: Parameters) -> float:
    """Return what entering a code once takes; nothing where no lock is opened."""
    if work.entry is None:
        return 0.0
    return parameters[f"enter.{work.entry.mechanism}"] * max(1, work.entry.symbols)


def solving_s(work: Work, age: float, parameters: Parameters) -> float:
    """Return what solving takes one pupil of `age`, by its effort or on somebody's word."""
    if work.solving_s is not None:
        return work.solving_s
    effort = work.effort
    skill = f"solve.step-{effort.skill}"
    step = parameters[skill if skill in KNOWN else "solve.step-other"]
    deeper = 1 + parameters["solve.deeper"] * max(0, effort.depth - 1)
    younger = 1 + parameters["solve.younger"] * max(0.0, GROWN - age)
    return (effort.marks * parameters["solve.mark"] + effort.steps * step * deeper) * younger


def aloud_s(paragraphs: Iterable[str], words_a_minute: float) -> float:
    """Return what reading paragraphs aloud takes at a pace."""
    return sum(len(one.split()) for one in paragraphs) * MINUTE / words_a_minute


def reading_rate(age: float, parameters: Mapping[str, float]) -> float:
    """Return words a minute at `age`, on straight lines between the published medians."""
    points = [(years, parameters[name]) for name, years in AGES.items()]
    if age <= points[0][0]:
        return points[0][1]
    for (low, slow), (high, quick) in pairwise(points):
        if age <= high:
            return slow + (quick - slow) * (age - low) / (high - low)
    return points[-1][1]
