"""Which session a printed set is at: one for set-up and hour, another one once it is over."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from boxwright.choose.edition import named
from boxwright.ledger.store import Ledger
from boxwright.live.at_hand import at_hand, played_before, prepared
from boxwright.live.desk import Desk
from tests.live.plays import EDITION, ObedientClock, draft

OTHER = named(replace(EDITION, seed=2))


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


def play(desk: Desk, session: str, *kinds: str) -> None:
    assert isinstance(desk.clock, ObedientClock)
    for kind in kinds:
        desk.clock.passes(60)
        desk.take(session, draft(kind, id=f"{kind}-{session}"[:64].replace(".", "-")))


def test_looking_for_a_session_opens_none(desk: Desk) -> None:
    assert at_hand(desk, [EDITION]) is None
    assert desk.sessions() == ()


def test_who_comes_second_finds_the_session_of_who_came_first(desk: Desk) -> None:
    session = prepared(desk, [EDITION])
    assert at_hand(desk, [EDITION]) == session
    assert prepared(desk, [EDITION]) == session


def test_all_groups_get_a_table_with_a_name(desk: Desk) -> None:
    groups = desk.state(prepared(desk, [EDITION])).groups
    assert [group.name for group in groups.values()] == ["Table 1", "Table 2"]


def test_the_time_to_play_is_what_bell_to_bell_leaves(desk: Desk) -> None:
    assert desk.state(prepared(desk, [EDITION])).clock.planned_s == 1800


def test_two_that_begin_at_the_same_moment_share_one_session(desk: Desk) -> None:
    found: list[str] = []
    threads = [
        threading.Thread(target=lambda: found.append(prepared(desk, [EDITION]))) for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 4
    assert len(set(found)) == len(desk.sessions()) == 1


def test_the_session_stays_at_hand_while_it_is_played(desk: Desk) -> None:
    session = prepared(desk, [EDITION])
    play(desk, session, "clock.started")
    assert at_hand(desk, [EDITION]) == session


@pytest.mark.parametrize("last", [("clock.started", "clock.ended"), ("session.closed",)])
def test_a_session_that_is_over_makes_room_for_the_next(desk: Desk, last: tuple[str, ...]) -> None:
    session = prepared(desk, [EDITION])
    play(desk, session, *last)
    assert at_hand(desk, [EDITION]) is None
    assert prepared(desk, [EDITION]) != session


def test_another_printed_set_has_sessions_of_its_own(desk: Desk) -> None:
    session = prepared(desk, [EDITION])
    assert at_hand(desk, [OTHER]) is None
    assert prepared(desk, [OTHER]) != session


def test_a_set_counts_as_played_when_its_time_has_ended(desk: Desk) -> None:
    session = prepared(desk, [EDITION])
    assert not played_before(desk, [EDITION])
    play(desk, session, "clock.started")
    assert not played_before(desk, [EDITION])
    play(desk, session, "clock.ended")
    assert played_before(desk, [EDITION])
    assert not played_before(desk, [OTHER])


def test_it_stays_played_while_the_next_class_is_prepared_and_until_it_begins(desk: Desk) -> None:
    play(desk, prepared(desk, [EDITION]), "clock.started", "clock.ended")
    session = prepared(desk, [EDITION])
    assert played_before(desk, [EDITION])
    play(desk, session, "clock.started")
    assert not played_before(desk, [EDITION])


def test_a_session_that_was_closed_unplayed_leaves_nothing_to_be_put_back(desk: Desk) -> None:
    play(desk, prepared(desk, [EDITION]), "session.closed")
    assert not played_before(desk, [EDITION])
