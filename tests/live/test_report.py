"""What each table did along the clock, as data and for a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from hypothesis import given

from boxwright.live.events import DATA, Event
from boxwright.live.report import as_csv, report
from boxwright.live.state import fold
from boxwright.live.telling import told
from boxwright.messages import words
from tests.live.plays import EDITION, Play, opened, streams

EDITIONS = {"1": EDITION, "2": EDITION}


def played() -> Play:
    play = opened()
    play.says("step.ticked", list="set-up", step="set/front")
    play.says("clock.started")
    play.clock.passes(59)
    play.says("code.tried", group="1", lock="front", right=False)
    play.says("hint.given", group="1", clue="map", line=1)
    play.clock.passes(58)
    play.says("lock.opened", group="1", lock="front")
    gone = play.says("lock.opened", group="2", lock="side")
    play.says("undone", event=gone.id)
    play.says("note.made", group="2", text="quarrel")
    play.says("mishap.noted", thing="projector", what="other", note="")
    return play


def test_each_table_has_its_lines_in_time_and_its_sums() -> None:
    window, door = report(fold(played().events), EDITIONS).tables
    assert [(line.second, line.what, line.thing, line.number) for line in window.lines] == [
        (60, "code.tried", "front", 0),
        (61, "hint.given", "map", 1),
        (120, "lock.opened", "front", None),
    ]
    assert (window.name, window.minutes, window.hints, window.wrong) == (
        "Window",
        {"map": 2.0},
        1,
        1,
    )
    assert [words(line.says) for line in door.lines] == ["Door: quarrel"]
    assert (window.won_s, door.minutes) == (None, {})


def test_what_was_noted_for_all_stands_apart() -> None:
    lines = report(fold(played().events), EDITIONS).all
    assert [(line.what, line.thing) for line in lines] == [
        ("clock.started", ""),
        ("mishap.noted", "projector"),
    ]


def test_things_are_told_by_the_names_that_they_have_in_the_game() -> None:
    play = opened()
    play.says("item.found", group="1", item="brass-key")
    (line,) = report(fold(play.events), EDITIONS).tables[0].lines
    assert words(line.says) == "Window found a brass key"


def rows(play: Play) -> list[list[str]]:
    text = as_csv(fold(play.events), EDITIONS)
    return list(csv.reader(io.StringIO(text, newline="")))


def test_the_csv_has_one_width_and_lines_that_end_as_the_standard_says() -> None:
    play = played()
    text = as_csv(fold(play.events), EDITIONS)
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    found = rows(play)
    assert {len(row) for row in found} == {6}
    assert found[0][:3] == ["table", "second", "what"]
    assert ["Window", "", "minutes", "map", "2.0", "minutes on this clue"] in found
    assert ["Window", "", "wrong", "", "1", "wrong codes in all"] in found


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", " =1", '=HYPERLINK("x")'])
def test_no_cell_runs_as_a_formula(name: str) -> None:
    play = opened({"1": name})
    play.says("note.made", group="1", text='a,b "c"\nd')
    play.says("mishap.noted", group="1", thing=name, what="lost", note="")
    found = rows(play)
    cells = [cell for row in found for cell in row]
    assert f"'{name}" in cells
    assert not [cell for cell in cells if cell.lstrip().startswith(tuple("=+-@"))]


@given(streams())
def test_every_session_can_be_reported(events: list[Event]) -> None:
    state = fold(events)
    for table in report(state, EDITIONS).tables:
        assert [line.second for line in table.lines] == sorted(line.second for line in table.lines)
    assert as_csv(state, EDITIONS)


@given(streams())
def test_every_event_can_be_said(events: list[Event]) -> None:
    state = fold(events)
    for event in events:
        message: Any = told(event, state)
        assert not words(message).startswith("live.")


def test_there_are_words_for_each_type() -> None:
    play = opened()
    values: dict[str, Any] = {"group": "1", "seconds": 60, "right": True, "line": 1}
    for kind, record in DATA.items():
        from dataclasses import fields

        names = [field.name for field in fields(record)]
        what = {name: values.get(name, "x") for name in names}
        what |= {"what": "torn"} if "what" in names else {}
        what |= {"outcome": "won"} if "outcome" in names else {}
        what |= {"list": "reset"} if "list" in names else {}
        what |= {"broken": True} if "broken" in names else {}
        what |= {"editions": {}, "planned_s": 5, "purpose": "class"} if "planned_s" in names else {}
        what |= {"wall_change_ms": 5} if "wall_change_ms" in names else {}
        assert "live." not in words(told(play.says(kind, **what), fold(opened().events)))
