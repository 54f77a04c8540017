"""What tables that played teach of how long clues take: an exact posterior.

Table g of class s needed T minutes for clue c, of kind k at level l, where the median that is
reckoned without any of this is M. Times are lognormal, so that their logarithms are added:

    log T - log M  =  b_c + u_s + v_sg + e        what was seen of clue c
    b_c  ~ N(b_kl, clue^2)                        a clue is about like its kind at its level,
    b_kl ~ N(b_k, level^2)                        that about like its kind,
    b_k  ~ N(0, kind^2)                           and that about as reckoned;
    u_s  ~ N(0, class^2), v_sg ~ N(0, group^2)    a class is slow as a whole, and so is a group;
    e    ~ N(0, chance^2 + h hint^2)              what is left, more of it after each of h hints

Here clue, level, kind, class, group, chance and hint are the parameters `learn.clue` and so
on: assumptions without a source. All is linear and normal, so that the posterior of the b is
normal, too, and known in closed form: class by class, mean and covariance are conditioned on
what that class showed, with u and v in the covariance of its residuals. Tables of one class
share u_s, so that ten tables of one class tell less than one table in each of ten classes.

A hint shortens what it is given for. T is therefore what the time would have been without, by
the forecast's own rule (`hint.leaves`): each second after a hint stands for 1/leaves of them.
Since what a hint leaves is a guess itself, such a time counts for less (`hint`).

A clue that was not done when time was over took longer than that, and no more is known: were it
left out, what is slowest would seem quick. Given that, the joint distribution is no normal any
more; the one of the same mean and covariance is taken in its place, table by table.

What this cannot do: a clue that waits for hands that another one holds seems slow itself, as
far as the trials do not make it wait as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from math import erfc, exp, log, pi, sqrt

import numpy as np

from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array
from boxwright.forecast.timing import Bias
from boxwright.frozen import frozen_value
from boxwright.game.model import Level

LEAST_LEFT = 0.1
"""A hint that leaves next to nothing would turn seconds into hours: so much counts as left."""

FAR = 30.0
"""Beyond so many standard deviations of a normal hardly a number is left."""
SLIGHT = 1e-6
"""So little a doubt is none: what rounding leaves."""


@frozen_value
class Subject:
    """A clue of a game as it is made: of another kind or level it is another one."""

    game: str
    clue: str
    kind: str
    level: Level


@frozen_value
class Observation:
    """What one group needed for one clue: minutes from when it could be begun until it was done.

    `expected`: the median that is reckoned for that, without hints and without learning;
    `hints`: minutes after which it got each hint. Not `done`: it would have taken longer.
    """

    subject: Subject
    session: str
    group: str
    minutes: float
    expected: float
    hints: tuple[float, ...] = ()
    done: bool = True


@frozen_value
class Lesson:
    """What is known of a clue: its bias, and the share of doubt about it that data removed.

    Likewise the shares for its kind at its level, and for its kind: from 0 to 1.
    """

    bias: Bias
    of_clue: float
    of_level: float
    of_kind: float


def learn(
    observations: Iterable[Observation], wanted: Iterable[Subject], parameters: Parameters
) -> dict[Subject, Lesson]:
    """Return what is known of each clue in `wanted`, after all `observations`."""
    classes: dict[str, list[Observation]] = {}
    for one in observations:
        classes.setdefault(one.session, []).append(one)
    subjects = tuple(wanted)
    seen = (one.subject for rows in classes.values() for one in rows)
    belief = _Belief(tuple(dict.fromkeys((*subjects, *seen))), parameters)
    for rows in classes.values():
        belief.condition(rows)
    return belief.lessons(subjects)


def unhinted(one: Observation, leaves: float) -> float:
    """Return the minutes that a group would have needed without hints, by the forecast's rule."""
    left, minutes, share = max(leaves, LEAST_LEFT), 0.0, 1.0
    moments = sorted(min(max(at, 0.0), one.minutes) for at in one.hints)
    for begin, end in pairwise((0.0, *moments, one.minutes)):
        minutes += (end - begin) / share
        share *= left
    return minutes


class _Belief:
    """The joint normal of all biases: of kinds, of kinds at a level, of clues."""

    def __init__(self, subjects: Sequence[Subject], parameters: Parameters) -> None:
        self.parameters = parameters
        named = [names for subject in subjects for names in _names(subject)]
        self.rows: Mapping[object, int] = {one: at for at, one in enumerate(dict.fromkeys(named))}
        steps = [0.0] * len(self.rows)
        sums: Array = np.eye(len(self.rows))
        for subject in subjects:
            above: list[int] = []
            for name, part in zip(_names(subject), ("kind", "level", "clue"), strict=True):
                row = self.rows[name]
                steps[row] = parameters[f"learn.{part}"] ** 2
                sums[row, above] = 1
                above.append(row)
        self.mean = np.zeros(len(self.rows))
        self.covariance: Array = (sums * steps) @ sums.T
        self.prior = self.covariance.diagonal().copy()

    def condition(self, rows: Sequence[Observation]) -> None:
        """Take in what one class showed: what was done, and then what was not."""
        known, at = len(self.mean), [self.rows[one.subject] for one in rows]
        with_rows = [*range(known), *at]
        joint = _Normal(self.mean[with_rows], self.covariance[np.ix_(with_rows, with_rows)])
        joint.covariance[known:, known:] += self._residuals(rows)
        seen = [self._seen(one) for one in rows]
        done = [row for row, one in enumerate(rows) if one.done]
        joint.given([known + row for row in done], [seen[row] for row in done])
        for row, one in enumerate(rows):
            if not one.done:
                joint.beyond(known + row, seen[row])
        self.mean, self.covariance = joint.mean[:known], joint.covariance[:known, :known]

    def lessons(self, subjects: Sequence[Subject]) -> dict[Subject, Lesson]:
        """Return what is known of each clue, the doubts about them tied as they are."""
        at = [self.rows[one] for one in subjects]
        shares = _triangle(self.covariance[np.ix_(at, at)])
        names = [f"{one.game} {one.clue} {one.kind} {one.level}" for one in subjects]
        rows = (dict(zip(names, row, strict=True)) for row in shares.tolist())
        doubts = ({name: part for name, part in row.items() if part} for row in rows)
        return {one: self._lesson(one, own) for one, own in zip(subjects, doubts, strict=True)}

    def _lesson(self, subject: Subject, doubts: Mapping[str, float]) -> Lesson:
        kind, level, clue = (self.rows[name] for name in _names(subject))
        spread = sqrt(max(float(self.covariance[clue, clue]), 0.0))
        bias = Bias(float(self.mean[clue]), spread, doubts)
        return Lesson(bias, self._weight(clue), self._weight(level), self._weight(kind))

    def _weight(self, row: int) -> float:
        """Return the share of the prior variance that is gone."""
        before = float(self.prior[row])
        gone = 1 - float(self.covariance[row, row]) / before if before else 0.0
        return min(max(gone, 0.0), 1.0)

    def _seen(self, one: Observation) -> float:
        return log(unhinted(one, self.parameters["hint.leaves"]) / one.expected)

    def _residuals(self, rows: Sequence[Observation]) -> Array:
        """Return the covariance of what is not the clues' own: of class, group and chance."""
        of_class, of_group, chance, hint = (
            self.parameters[f"learn.{part}"] ** 2 for part in ("class", "group", "chance", "hint")
        )
        number = {group: at for at, group in enumerate(dict.fromkeys(one.group for one in rows))}
        groups = np.array([number[one.group] for one in rows])
        same = groups[:, None] == groups
        own: Array = np.diag([chance + len(one.hints) * hint for one in rows])
        own += of_class + of_group * same
        return own


class _Normal:
    """Several numbers that are normal together."""

    def __init__(self, mean: Array, covariance: Array) -> None:
        self.mean, self.covariance = mean, covariance

    def given(self, at: Sequence[int], seen: Sequence[float]) -> None:
        """Learn exactly what some of the numbers are."""
        across: Array = self.covariance[at]
        gain = np.linalg.solve(across[:, at], across).T
        self.mean = self.mean + gain @ (np.array(seen) - self.mean[at])
        self.covariance = self.covariance - gain @ across

    def beyond(self, at: int, least: float) -> None:
        """Learn that one of the numbers is more than `least`; mean and covariance are exact.

        Those of a normal cut off below: Johnson, Kotz and Balakrishnan, Continuous Univariate
        Distributions 1, 2nd edition, section 13.10.1; the others follow by regression on it.
        """
        spread = sqrt(float(self.covariance[at, at]))
        along: Array = self.covariance[at] / spread
        where = (least - float(self.mean[at])) / spread
        hazard = _hazard(where)
        self.mean = self.mean + along * hazard
        self.covariance = self.covariance - np.outer(along, along) * hazard * (hazard - where)


def _hazard(where: float) -> float:
    """Return the density of the standard normal through what lies beyond."""
    if where > FAR:
        return where + 1 / where  # the next term is less than what rounding leaves of it here
    return exp(-(where**2) / 2) / sqrt(2 * pi) / (erfc(where / sqrt(2)) / 2)


def _triangle(covariance: Array) -> Array:
    """Return the lower triangle L with L L' the covariance, which may have noughts on its edge.

    Cholesky's, by way of the spectrum, since Cholesky's own wants each variance above nought.
    """
    values, vectors = np.linalg.eigh(covariance)
    root = vectors * np.sqrt(np.maximum(values, 0.0))
    _, upper = np.linalg.qr(root.T)
    lower: Array = upper.T
    lower = lower * np.where(lower.diagonal() < 0, -1.0, 1.0)
    return np.where(np.abs(lower) < SLIGHT, 0.0, lower)


def _names(subject: Subject) -> tuple[object, object, object]:
    """Return what biases are known by: a kind, a kind at a level, a clue."""
    return subject.kind, (subject.kind, subject.level), subject
