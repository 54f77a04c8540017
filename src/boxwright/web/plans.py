"""The time plan of a game as a page shows it: worked out once for each state of its files."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, TypeAlias

from boxwright.build import Built
from boxwright.build.forecasting import Foreseen, Play, foresee
from boxwright.build.parameters import parameters_of
from boxwright.build.plan_words import MINUTE, change, course, minutes, proposed, verdict
from boxwright.forecast.parameters import TARGET
from boxwright.problems import Message, Problem, Refused
from boxwright.web.game import Game

if TYPE_CHECKING:
    from boxwright.forecast.learning import Observation
    from boxwright.live.desk import Desk

Plans: TypeAlias = tuple[Foreseen, ...] | tuple[Problem, ...]

MANY, FEW = 10_000, 4_000
"""Trials for the plan, and for each of many changes to it."""
LEAST_S = 30
"""A change that makes less of a difference is not shown."""


def plans_of(game: Game, desk: Desk, *, changes: bool = False) -> Plans:
    """Return the forecast of each edition of the game as wished, or what bars the way."""
    built = game.built
    if not isinstance(built, Built):
        return built
    events = sum(one.events for one in desk.ledger.sessions())
    of = (game.wishes, events, changes)
    return game.recall("plan", of, lambda: _foreseen(game, built, desk, events, changes=changes))


def foreseen_in(plans: Plans) -> tuple[Foreseen, ...]:
    """Return the forecasts, none where something bars the way."""
    return tuple(one for one in plans if isinstance(one, Foreseen))


def problems_in(plans: Plans) -> tuple[Problem, ...]:
    """Return what bars the way."""
    return tuple(one for one in plans if isinstance(one, Problem))


def _foreseen(game: Game, built: Built, desk: Desk, events: int, *, changes: bool) -> Plans:
    play = Play(trials=FEW if changes else MANY, changes=changes, wishes=game.wishes)
    try:
        return foresee(built, play, _seen(game, built, desk, events))
    except Refused as refused:
        return refused.problems


def _seen(game: Game, built: Built, desk: Desk, events: int) -> tuple[Observation, ...]:
    """Return what sessions showed: read anew where there are more events, not with each change."""
    from boxwright.live.observed import kinds_of, observed

    kinds, parameters = kinds_of(built.editions), parameters_of(built.folder.game)
    key = ("seen", events, kinds, frozenset(parameters.given.items()))
    return game.studio.memory.recall(key, lambda: observed(desk.ledger, kinds, parameters))


def planned(one: Foreseen) -> dict[str, Any]:
    """Return the plan of an edition as its template takes it."""
    from boxwright.forecast.drawn import drawn

    return {
        "groups": one.groups,
        "likely": one.forecast.one.value >= TARGET,
        "verdict": tuple(verdict(one)),
        "course": tuple(course(one)),
        "drawn": drawn(one.forecast),
        "clues": {clue.name: clue for clue in one.forecast.clues},
        "minutes": minutes,
    }


def offered(one: Foreseen) -> dict[str, Any]:
    """Return what is proposed for an edition, and what every change would change."""
    return {
        "groups": one.groups,
        "proposed": tuple(proposed(one.proposals, TARGET)),
        "changes": tuple(_changes(one)),
    }


def _changes(one: Foreseen) -> Iterator[tuple[Message, int, int]]:
    """Yield each change that matters: its name, how many more of 100, minutes sooner."""
    for made in sorted(one.differences, key=lambda made: -(made.sooner_s or 0.0)):
        more, sooner = round(100 * made.chance.value), made.sooner_s or 0.0
        if more or abs(sooner) >= LEAST_S:
            yield change(made.change), more, round(sooner / MINUTE)
