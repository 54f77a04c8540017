"""What a change would change is told from the same chances."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, forecast
from boxwright.forecast.changes import Change, Difference, changes, differences
from boxwright.forecast.parameters import Parameters
from boxwright.puzzles.contract import Effort
from tests.forecast.games import drawn, network, task

DEFAULTS = Parameters()
GAME = drawn(Dice("changes"), 8, pupils=3, hints=1)
MIDDLE = forecast(Asked(GAME, 1), DEFAULTS, Dice("answers")).finish.p50 or 0.0
ASKED = Asked(GAME, MIDDLE, groups=2, trials=8_000)


def told(*made: Change) -> tuple[Difference, ...]:
    """Return what changes would change, from one seed."""
    return differences(ASKED, made, DEFAULTS, Dice("answers"))


def test_all_sorts_of_changes_are_told() -> None:
    easier = replace(GAME.tasks[2], work=replace(GAME.tasks[2].work, effort=Effort(9, 1, 1, 1, "")))
    found = [(one.sort, one.task) for one in changes(GAME, [easier])]
    assert found[:3] == [("fewer-pupils", None), ("more-hints", None), ("easier", "t2")]
    assert found[3:] == [("without", name) for name in GAME.names]
    assert next(changes(network(task("a")))).sort == "more-hints"


def test_no_change_changes_nothing_at_all() -> None:
    (same,) = told(Change("more-hints", GAME))
    assert (same.chance.value, same.chance.error, same.sooner_s) == (0, 0, 0)


def test_changes_help_or_harm_as_they_must() -> None:
    easier = replace(
        GAME.tasks[-1], work=replace(GAME.tasks[-1].work, effort=Effort(9, 1, 1, 1, ""))
    )
    found = {(one.sort, one.task): one for one in told(*changes(GAME, [easier]))}
    assert found["fewer-pupils", None].chance.value < 0
    assert (found["fewer-pupils", None].sooner_s or 0) < 0
    assert found["more-hints", None].chance.value > 0
    assert found["easier", "last"].chance.value > 0
    without = found["without", "last"]
    assert without.chance.value > found["easier", "last"].chance.value
    assert (without.sooner_s or 0) > 0


def test_from_the_same_chances_the_error_is_smaller_than_from_others() -> None:
    change = next(one for one in changes(GAME) if one.sort == "more-hints")
    (paired,) = told(change)
    before = forecast(ASKED, DEFAULTS, Dice("one")).one
    after = forecast(replace(ASKED, network=change.network), DEFAULTS, Dice("two")).one
    assert paired.chance.error < 0.7 * hypot(before.error, after.error)
    assert abs(paired.chance.value - (after.value - before.value)) < 4 * hypot(
        before.error, after.error
    )


def test_a_game_that_never_ends_cannot_get_sooner() -> None:
    stuck = network(task("a", "b"), task("b", "a"))
    made = [Change("without", stuck.without("a"), "a")]
    (found,) = differences(Asked(stuck, 1e6, trials=50), made, DEFAULTS, Dice("never"))
    assert found.sooner_s is None
    assert found.chance.value == pytest.approx(1)
