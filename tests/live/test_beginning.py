"""From the tables' names to a clock that runs: in the session that was set up, or in a new one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boxwright.ledger.store import Ledger
from boxwright.live.beginning import begin
from boxwright.live.desk import Desk
from tests.live.plays import EDITION, NAMES, ObedientClock


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


def begun(desk: Desk, names: dict[str, str] | None = None, **more: Any) -> str:
    how: dict[str, Any] = {"planned_s": 1500, "purpose": "class", "device": "laptop-1"} | more
    return begin(desk, [EDITION], dict(NAMES) if names is None else names, **how)


def test_a_clock_runs_over_the_tables_that_were_named(desk: Desk) -> None:
    state = desk.state(begun(desk, {"2": "Door"}))
    assert state.clock.status == "running"
    assert [one.name for one in state.groups.values()] == ["Door"]


def test_the_session_that_was_set_up_is_the_one_that_begins(desk: Desk) -> None:
    prepared = desk.open([EDITION], 1500, {"1": "Table 1", "2": "Table 2"})
    assert begun(desk, planned_s=1200) == prepared
    state = desk.state(prepared)
    assert [one.name for one in state.groups.values()] == ["Window", "Door"]
    assert (state.clock.planned_s, state.clock.extended_s) == (1200, 0)


def test_two_tables_may_swap_their_names(desk: Desk) -> None:
    prepared = desk.open([EDITION], 1500, {"1": "Door", "2": "Window"})
    begun(desk)
    assert {id: one.name for id, one in desk.state(prepared).groups.items()} == dict(NAMES)


@pytest.mark.parametrize("more", [{"names": {"1": "Window"}}, {"purpose": "try-out"}])
def test_what_does_not_fit_gives_way_to_a_new_session(desk: Desk, more: dict[str, Any]) -> None:
    prepared = desk.open([EDITION], 1500, NAMES)
    session = begun(desk, **more)
    assert session != prepared
    assert desk.state(prepared).closed
    assert desk.last_unfinished("test-game") == session


def test_whoever_begins_a_moment_later_joins_in(desk: Desk) -> None:
    session = begun(desk)
    assert begun(desk, {"1": "Other"}) == session
    assert desk.state(session).groups["1"].name == "Window"
