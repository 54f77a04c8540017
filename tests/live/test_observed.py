"""What sessions teach of clues: only what was played, whole, and by a class."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from boxwright.build.forecasting import expected_of
from boxwright.forecast.learning import Observation
from boxwright.forecast.parameters import Parameters
from boxwright.ledger.store import Ledger
from boxwright.live.desk import Desk
from boxwright.live.observed import observed
from tests.live.plays import EDITION, ObedientClock
from tests.live.sessions import Deeds, opens, play, sayer

USUAL = Parameters()
TWO_LOCKS: Deeds = [
    (240, *opens("1", "front")),
    (600, *opens("1", "side")),
    (300, *opens("2", "front")),
]


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


def seen(desk: Desk, *kinds: str) -> tuple[Observation, ...]:
    return observed(desk.ledger, kinds or ("nonogram",), USUAL)


def minutes(desk: Desk) -> list[tuple[str, str, float]]:
    """Return what took how long at which table, of what was done."""
    return sorted((one.group, one.subject.clue, one.minutes) for one in seen(desk) if one.done)


def left(desk: Desk) -> list[tuple[str, str, float]]:
    """Return how long tables had been at what they had not done."""
    return sorted((one.group, one.subject.clue, one.minutes) for one in seen(desk) if not one.done)


def test_each_table_tells_how_long_a_clue_took_from_when_it_could_be_begun(desk: Desk) -> None:
    session = play(desk, TWO_LOCKS)
    assert minutes(desk) == [("1", "list", 6.0), ("1", "map", 4.0), ("2", "map", 5.0)]
    assert {one.session for one in seen(desk)} == {session}


def test_taking_a_clue_late_makes_it_no_shorter(desk: Desk) -> None:
    play(desk, [(200, "clue.taken", {"group": "1", "clue": "map"}), (240, *opens("1", "front"))])
    assert minutes(desk) == [("1", "map", 4.0)]


def test_it_is_held_against_what_the_trials_take_without_hints(desk: Desk) -> None:
    play(desk, TWO_LOCKS)
    expected = expected_of(EDITION, USUAL)
    assert [one.expected for one in seen(desk)] == [
        expected[one.subject.clue] for one in seen(desk)
    ]
    assert 0 < expected["map"] < 30
    assert expected_of(EDITION, Parameters({"hint.after": 60})) == expected


def test_hints_come_with_the_minute_at_which_they_were_given(desk: Desk) -> None:
    hint = {"group": "1", "clue": "list", "line": 1}
    late = {"group": "1", "clue": "map", "line": 1}
    play(desk, [*TWO_LOCKS, (420, "hint.given", hint), (900, "hint.given", late)])
    assert {one.subject.clue: one.hints for one in seen(desk) if one.group == "1" and one.done} == {
        "map": (),
        "list": (3.0,),
    }


def test_what_was_not_done_when_time_was_over_took_longer_than_that(desk: Desk) -> None:
    hint = {"group": "2", "clue": "list", "line": 1}
    play(desk, [*TWO_LOCKS, (420, "hint.given", hint)], length_s=1200)
    assert [one for one in left(desk) if one[1] == "list"] == [("2", "list", 15.0)]
    (one,) = (one for one in seen(desk) if (one.group, one.subject.clue) == ("2", "list"))
    assert one.hints == (2.0,)


def test_a_table_that_stopped_before_the_others_is_left_where_it_stopped(desk: Desk) -> None:
    stops = {"group": "2", "outcome": "unfinished"}
    play(desk, [*TWO_LOCKS, (840, "group.finished", stops)])
    assert ("2", "list", 9.0) in left(desk)


def test_of_a_table_that_won_nothing_is_left(desk: Desk) -> None:
    won = {"group": "2", "outcome": "won"}
    play(desk, [*TWO_LOCKS, (840, "group.finished", won)])
    assert {group for group, *_ in left(desk)} == {"1"}
    assert ("2", "map", 5.0) in minutes(desk)


def test_while_a_table_plays_nothing_is_left(desk: Desk) -> None:
    session = desk.open([EDITION], 1500, {"1": "A", "2": "B"})
    says = sayer(desk, session)
    says("clock.started")
    assert isinstance(desk.clock, ObedientClock)
    desk.clock.passes(240)
    says("lock.opened", group="1", lock="front")
    desk.clock.passes(600)
    assert minutes(desk) == [("1", "map", 4.0)]
    assert left(desk) == []


def test_a_session_marked_broken_does_not_count_until_it_is_unmarked(desk: Desk) -> None:
    says = sayer(desk, play(desk, TWO_LOCKS))
    marked = says("session.marked", broken=True, why="fire drill")
    assert seen(desk) == ()
    says("undone", event=marked)
    assert len(minutes(desk)) == 3


def test_trying_a_game_out_teaches_nothing(desk: Desk) -> None:
    play(desk, TWO_LOCKS, purpose="try-out")
    assert seen(desk) == ()


def test_a_lock_that_jammed_at_one_table_does_not_count_there(desk: Desk) -> None:
    jammed = {"group": "1", "thing": "front", "what": "jammed", "note": ""}
    play(desk, [*TWO_LOCKS, (100, "mishap.noted", jammed)])
    assert minutes(desk) == [("1", "list", 6.0), ("2", "map", 5.0)]


def test_a_sheet_that_leaked_for_all_does_not_count_anywhere(desk: Desk) -> None:
    leaked = {"group": None, "thing": "map", "what": "leaked", "note": ""}
    play(desk, [*TWO_LOCKS, (100, "mishap.noted", leaked)])
    assert minutes(desk) == [("1", "list", 6.0)]


def test_a_forgotten_session_is_gone(desk: Desk) -> None:
    desk.forget(play(desk, TWO_LOCKS))
    assert seen(desk) == ()


def test_what_was_undone_and_what_opened_at_once_is_not_there(desk: Desk) -> None:
    says = sayer(desk, play(desk, [(240, *opens("1", "front")), (245, *opens("1", "side"))]))
    assert minutes(desk) == [("1", "map", 4.0)]
    says("undone", event=desk.events(desk.sessions()[0].id)[-3].id)
    says("undone", event=desk.events(desk.sessions()[0].id)[-5].id)
    assert seen(desk) == ()


def test_other_kinds_than_those_asked_for_are_left_out(desk: Desk) -> None:
    play(desk, TWO_LOCKS)
    assert seen(desk, "pigpen") == ()
