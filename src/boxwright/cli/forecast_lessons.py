"""What a forecast has learnt: from where it is taken, and how it is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import exp
from pathlib import Path
from typing import TYPE_CHECKING, Any

from boxwright.build import Built
from boxwright.build.forecasting import Foreseen
from boxwright.build.own_times import read_times
from boxwright.build.parameters import parameters_of
from boxwright.cli.lock_sections import table
from boxwright.forecast.learning import Lesson, Observation
from boxwright.forecast.parameters import ALL, Parameters
from boxwright.frozen import frozen_value
from boxwright.ledger.place import place_of, usual_file
from boxwright.messages import words
from boxwright.problems import Message, Problem, plain, refuse, say

if TYPE_CHECKING:
    from boxwright.live.foretold import Coverage

SHOWN = 0.005
"""A weight that is less is shown as none."""
EIGHT_IN_TEN = 1.2815515655446004
"""So many standard deviations about its middle hold eight tenths of a normal."""


@frozen_value
class Learnt:
    """What tables showed, and how those ended that something had been foretold, if any."""

    seen: tuple[Observation, ...] = ()
    coverage: Coverage | None = None

    @property
    def classes(self) -> int:
        """How many classes it rests on."""
        return len({one.session for one in self.seen})

    @property
    def tables(self) -> int:
        """How many tables it rests on."""
        return len({(one.session, one.group) for one in self.seen})


def learnt_for(built: Built, own: Path | None, ledger: str | None) -> Learnt:
    """Return what a table of one's own tells; without one, what the sessions of the ledger do."""
    parameters = parameters_of(built.folder.game)
    if own is not None:
        return Learnt(read_times(own, built.editions, parameters))
    if ledger is None and not usual_file().exists():
        return Learnt()
    return _kept(built, ledger, parameters)


def _kept(built: Built, ledger: str | None, parameters: Parameters) -> Learnt:
    """Return what the sessions of a ledger teach; Refused where there is none."""
    from boxwright.ledger.store import Ledger  # late, as are these two: they need a database
    from boxwright.live.foretold import coverage
    from boxwright.live.observed import kinds_of, observed

    place = place_of(ledger)
    if place.file is not None and not place.file.exists():
        refuse(Problem.of("learn.no-ledger", place.where, file=place.shown))
    with Ledger(ledger) as book:
        seen = observed(book, kinds_of(built.editions), parameters)
        return Learnt(seen, coverage(book, built.edition.game.id))


def lessons_json(built: Built, found: Sequence[Foreseen], learnt: Learnt) -> dict[str, Any]:
    """Return the parameters with where each is from, and what was learnt."""
    given = parameters_of(built.folder.game)
    factors = {clue: lesson for one in found for clue, lesson in one.lessons.items()}
    return {
        "parameters": [*_parameters(given), *_factors(factors)],
        "learnt": {
            "classes": learnt.classes,
            "tables": learnt.tables,
            "clues": {clue: _lesson(lesson) for clue, lesson in factors.items()},
            "coverage": None if learnt.coverage is None else plain(learnt.coverage),
        },
    }


def _parameters(given: Parameters) -> Iterator[dict[str, Any]]:
    for one in ALL:
        origin = "game" if one.name in given.given else "default"
        value = {"most": one.limit, "value": given[one.name], "from": origin}
        yield plain(one._asdict()) | value


def _factors(lessons: Mapping[str, Lesson]) -> Iterator[dict[str, Any]]:
    """Yield the factor of each clue as one more parameter, which nobody sets."""
    for clue, lesson in lessons.items():
        if lesson.of_clue > 0:
            about = {"name": f"factor.{clue}", "unit": "times", "default": 1, "source": "sessions"}
            value = exp(lesson.bias.mean)
            yield about | {"most": None, "least": 0, "value": value, "from": "learnt"}


def _lesson(lesson: Lesson) -> dict[str, float]:
    weights = {"of_clue": lesson.of_clue, "of_level": lesson.of_level, "of_kind": lesson.of_kind}
    return {"factor": exp(lesson.bias.mean), "sd": lesson.bias.sd} | weights


def basis(found: Sequence[Foreseen], learnt: Learnt) -> Iterator[Message]:
    """Say what a forecast rests on, and how well earlier ones came true."""
    weights = [lesson.of_clue for one in found for lesson in one.lessons.values()]
    if not learnt.seen:
        yield say("learn.rests-on-nothing")
    else:
        mostly = "seen" if sum(weights) > len(weights) / 2 else "assumed"
        yield say(
            "learn.rests",
            classes=say("learn.classes", n=learnt.classes),
            tables=say("learn.tables", n=learnt.tables),
            mostly=say(f"learn.mostly-{mostly}"),
        )
    if learnt.coverage is not None:
        yield from _came_true(learnt.coverage)


def _came_true(found: Coverage) -> Iterator[Message]:
    if found.told:
        yield say("learn.coverage", within=found.within, n=found.told)
    if found.open:
        yield say("learn.coverage-open", n=found.open)


def lesson_table(one: Foreseen) -> tuple[str, ...]:
    """Return a row for each clue of which something was learnt; none where nothing was."""
    rows = [
        (clue, _factor(lesson), *map(_percent, (lesson.of_clue, lesson.of_level, lesson.of_kind)))
        for clue, lesson in one.lessons.items()
        if lesson.of_clue >= SHOWN
    ]
    heads = ("clue", "factor", "weight", "level", "kind")
    first = tuple(words(say(f"learn.head-{head}")) for head in heads)
    return table([first, *rows]) if rows else ()


def _factor(lesson: Lesson) -> str:
    half = EIGHT_IN_TEN * lesson.bias.sd
    low, middle, high = (f"{exp(lesson.bias.mean + step):.2f}" for step in (-half, 0, half))
    return words(say("learn.factor", middle=middle, low=low, high=high))


def _percent(share: float) -> str:
    return f"{round(100 * share)}"
