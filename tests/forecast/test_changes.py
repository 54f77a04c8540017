"""What a change would change is told from the same chances."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked
from boxwright.forecast.changes import (
    Change,
    Difference,
    Proposal,
    changes,
    differences,
    proposals,
)
from boxwright.forecast.network import Task
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array
from boxwright.forecast.reckoning import forecast, trials_of
from boxwright.puzzles.contract import Effort
from tests.forecast.games import drawn, network, task

DEFAULTS = Parameters()
GAME = drawn(Dice("changes"), 8, pupils=3, hints=1)
MIDDLE = forecast(Asked(GAME, 1), DEFAULTS, Dice("answers")).finish.p50 or 0.0
ASKED = Asked(GAME, MIDDLE, groups=2, trials=8_000)
ASKED_CHANCE = forecast(ASKED, DEFAULTS, Dice("answers")).one.value


def finish(asked: Asked = ASKED) -> Array:
    """Return when groups end, from one seed."""
    return trials_of(asked, DEFAULTS, Dice("answers")).finish


def told(*made: Change, asked: Asked = ASKED) -> tuple[Difference, ...]:
    """Return what changes would change, from one seed."""
    return differences(asked, finish(asked), made, DEFAULTS, Dice("answers"))


def best(asked: Asked, *made: Change, target: float = 0.9) -> tuple[Proposal, ...]:
    """Return what is proposed, from one seed."""
    found = told(*made, asked=asked)
    return proposals(asked, finish(asked), found, DEFAULTS, Dice("answers"), target)


def lighter(at: int, steps: int = 1) -> Task:
    """Return a task of the game with another effort."""
    one = GAME.tasks[at]
    return replace(one, work=replace(one.work, effort=Effort(9, 1, steps, 1, "")))


def test_all_sorts_of_changes_are_told() -> None:
    made = changes(GAME, [lighter(2)], [lighter(3, steps=90)])
    found = [(one.sort, one.task) for one in made]
    assert found[:2] == [("fewer-pupils", None), ("more-hints", None)]
    assert found[2:4] == [("easier", "t2"), ("harder", "t3")]
    assert found[4:] == [("without", name) for name in GAME.names]
    assert next(changes(network(task("a")))).sort == "more-hints"


def test_no_change_changes_nothing_at_all() -> None:
    (same,) = told(Change("easier", "t2", GAME.tasks[2]))
    assert (same.chance.value, same.chance.error, same.sooner_s) == (0, 0, 0)


def test_changes_help_or_harm_as_they_must() -> None:
    made = told(*changes(GAME, [lighter(-1)]))
    found = {(one.change.sort, one.change.task): one for one in made}
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
    after = forecast(replace(ASKED, network=change.applied(GAME)), DEFAULTS, Dice("two")).one
    assert paired.chance.error < 0.7 * hypot(before.error, after.error)
    assert abs(paired.chance.value - (after.value - before.value)) < 4 * hypot(
        before.error, after.error
    )


def test_a_game_that_never_ends_cannot_get_sooner() -> None:
    stuck = network(task("a", "b"), task("b", "a"))
    (found,) = told(Change("without", "a"), asked=Asked(stuck, 1e6, trials=50))
    assert found.sooner_s is None
    assert found.chance.value == pytest.approx(1)


def test_the_best_changes_towards_the_target_come_first_and_add_up() -> None:
    found = best(ASKED, *changes(GAME, [lighter(-1)]))
    assert 1 <= len(found) <= 3
    first = ASKED_CHANCE + found[0].alone.chance.value
    assert found[0].together.value == pytest.approx(first)
    chances = [one.together.value for one in found]
    assert chances == sorted(chances)
    assert len({one.alone.change.task for one in found}) == len(found)
    assert {one.alone.change.sort for one in found} <= {"more-hints", "easier", "without"}


def test_what_is_proposed_keeps_its_promise_when_it_is_made() -> None:
    """Made, and forecast from other chances, the chance is what was promised."""
    for count, proposal in enumerate(found := best(ASKED, *changes(GAME, [lighter(-1)])), 1):
        game = GAME
        for one in found[:count]:
            game = one.alone.change.applied(game)
        after = forecast(replace(ASKED, network=game), DEFAULTS, Dice("another class")).one
        error = hypot(after.error, proposal.together.error)
        assert abs(after.value - proposal.together.value) < 4 * error


def test_a_clue_is_left_out_only_where_gentler_changes_do_not_reach_the_target() -> None:
    made = [*changes(GAME, [lighter(-1), lighter(1)])]
    gentle = best(ASKED, *made, target=ASKED_CHANCE + 0.01)
    assert {one.alone.change.sort for one in gentle} <= {"more-hints", "easier"}
    assert gentle[-1].together.value >= ASKED_CHANCE + 0.01
    far = best(ASKED, *made, target=1.0)
    assert "without" in {one.alone.change.sort for one in far}


def test_a_game_as_wished_for_needs_no_change() -> None:
    assert best(replace(ASKED, play_s=1.3 * MIDDLE), *changes(GAME), target=0.5) == ()


def test_time_left_over_is_filled_with_what_is_harder_and_still_ends_in_time() -> None:
    long = replace(ASKED, play_s=3 * MIDDLE)
    heavy = [lighter(at, steps=60) for at in (2, 5)]
    endless = lighter(3, steps=9000)
    found = best(long, *changes(GAME, [lighter(1)], [*heavy, endless]))
    assert found
    assert {one.alone.change.sort for one in found} == {"harder"}
    assert "t3" not in {one.alone.change.task for one in found}
    assert all(one.together.value >= 0.9 for one in found)
    longer = [-(one.alone.sooner_s or 0) for one in found]
    assert longer == sorted(longer, reverse=True)
