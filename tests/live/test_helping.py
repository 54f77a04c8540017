"""Which table a hint would help most, told from where each one stands."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from boxwright.forecast.parameters import Parameters
from boxwright.ledger.store import Ledger
from boxwright.live.desk import Desk
from boxwright.live.helping import Help, Helper
from tests.live.plays import EDITION, ObedientClock
from tests.live.sessions import Deeds, opens, sayer

USUAL = Parameters()
QUICK: Deeds = [(240, *opens("1", "front")), (500, *opens("1", "side"))]
HINT = ("hint.given", {"group": "2", "clue": "map", "line": 1})


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


def told(desk: Desk, deeds: Deeds, at: int, planned: int = 1500) -> Help:
    """Return what is told so many seconds after the start of play."""
    session = desk.open([EDITION], planned, {"1": "A", "2": "B"})
    says = sayer(desk, session)
    says("clock.started")
    assert isinstance(desk.clock, ObedientClock)
    now = 0
    for second, kind, data in deeds:
        desk.clock.passes(second - now)
        now = second
        says(kind, **data)
    desk.clock.passes(at - now)
    helper = Helper(dict.fromkeys("12", EDITION), USUAL)
    return helper.help(desk.state(session), desk.clock.now())


def test_the_table_that_is_stuck_is_named_with_its_clue(desk: Desk) -> None:
    assert told(desk, QUICK[:1], 420) == Help("hint", "2", "B", "map")


def test_nobody_is_disturbed_at_the_start(desk: Desk) -> None:
    assert told(desk, [], 60).sort == "none"


def test_a_table_that_had_a_hint_a_moment_ago_is_left_in_peace(desk: Desk) -> None:
    assert told(desk, [QUICK[0], (400, *HINT)], 420).group != "2"


def test_with_time_enough_nobody_needs_a_hint(desk: Desk) -> None:
    assert told(desk, QUICK[:1], 420, planned=9000).sort == "none"


def test_a_table_far_behind_needs_more_than_a_hint(desk: Desk) -> None:
    assert told(desk, QUICK, 760) == Help("late", "2", "B")


def test_without_hints_left_there_is_none_to_give(desk: Desk) -> None:
    both = [(20, *HINT), (30, "hint.given", {"group": "2", "clue": "map", "line": 2})]
    assert told(desk, [*both, QUICK[0]], 420).sort != "hint"


def test_a_table_that_won_is_done(desk: Desk) -> None:
    locks = [(100 + at, *opens("2", lock)) for at, lock in enumerate(("front", "side", "lid"))]
    won = [*locks, (110, *opens("2", "latch"))]
    assert told(desk, won, 1000).group != "2"
