"""What a session was foretold stands in its first event, and is held against how it ended."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boxwright.forecast.parameters import Parameters
from boxwright.ledger.store import Ledger
from boxwright.live.at_hand import prepared
from boxwright.live.beginning import begin
from boxwright.live.desk import Desk
from boxwright.live.foretold import Coverage, coverage, foretold
from tests.live.plays import EDITION, GAME, NAMES, ObedientClock
from tests.live.sessions import Deeds, opens, play, sayer

BAND = {EDITION.id: {"finish_s": {"p10": 600.0, "p50": 900.0, "p90": 1200.0}, "clues": {}}}
USUAL = Parameters()


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


def won(group: str, at: int) -> Deeds:
    """Return what opens all boxes of a group, at some second."""
    found = ("item.found", {"group": group, "item": "brass-key"})
    return [(at, *opens(group, lock)) for lock in ("front", "side", "lid", "latch")] + [
        (at, *found)
    ]


def test_a_session_that_is_opened_keeps_its_forecast(desk: Desk) -> None:
    told = foretold(desk.ledger, [EDITION], USUAL)
    session = prepared(desk, [EDITION], lambda: told)
    kept: Any = desk.events(session)[0].data["forecast"]
    assert kept == told
    finish = kept[EDITION.id]["finish_s"]
    assert finish["p10"] < finish["p50"] < finish["p90"]
    assert set(kept[EDITION.id]["clues"]) >= set(GAME.clues)
    assert all(one["p10"] < one["p90"] for one in kept[EDITION.id]["clues"].values())


def test_a_forecast_is_worked_out_for_a_new_session_alone(desk: Desk) -> None:
    worked: list[int] = []
    for _ in range(2):
        prepared(desk, [EDITION], lambda: worked.append(1))
        begin(desk, [EDITION], dict(NAMES), 1500, "class", "d", forecast=lambda: worked.append(2))
    assert worked == [1]


def test_what_earlier_sessions_showed_is_in_what_later_ones_are_foretold(desk: Desk) -> None:
    before = foretold(desk.ledger, [EDITION], USUAL)[EDITION.id]["finish_s"]["p50"]
    slow: Deeds = [(1400, *opens("1", "front")), (1400, *opens("2", "front"))]
    for _ in range(4):
        play(desk, slow)
    assert foretold(desk.ledger, [EDITION], USUAL)[EDITION.id]["finish_s"]["p50"] > before * 1.2


def test_numbers_of_the_game_are_those_of_what_is_foretold(desk: Desk) -> None:
    slower = Parameters({"enter.walk": 300})
    usual, slow = (foretold(desk.ledger, [EDITION], one) for one in (USUAL, slower))
    assert slow[EDITION.id]["finish_s"]["p50"] > usual[EDITION.id]["finish_s"]["p50"] + 300


def test_tables_are_counted_by_whether_they_ended_in_the_band(desk: Desk) -> None:
    play(desk, [*won("1", 700), *won("2", 500)], forecast=BAND)
    play(desk, [*won("1", 1190), *won("2", 1210)], forecast=BAND)
    assert coverage(desk.ledger, GAME.id) == Coverage(within=2, told=4, open=0)


def test_a_table_that_never_ended_was_slower_than_told_or_cannot_be_told(desk: Desk) -> None:
    play(desk, won("1", 700), forecast=BAND, length_s=1500)
    assert coverage(desk.ledger, GAME.id) == Coverage(within=1, told=2, open=0)
    play(desk, won("1", 700), forecast=BAND, length_s=1000)
    assert coverage(desk.ledger, GAME.id) == Coverage(within=2, told=3, open=1)


def test_a_teachers_word_that_a_table_has_won_counts(desk: Desk) -> None:
    said = ("group.finished", {"group": "1", "outcome": "won"})
    play(desk, [(800, *said)], forecast=BAND)
    assert coverage(desk.ledger, GAME.id).within == 1


def test_broken_sessions_and_those_without_a_forecast_are_not_counted(desk: Desk) -> None:
    play(desk, won("1", 700))
    play(desk, won("1", 700), forecast=BAND, purpose="try-out")
    sayer(desk, play(desk, won("1", 700), forecast=BAND))("session.marked", broken=True, why="x")
    assert coverage(desk.ledger, GAME.id) == Coverage(0, 0, 0)
