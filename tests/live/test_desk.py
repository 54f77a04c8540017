"""The desk: what is taken is kept before anybody hears of it, once, and answered."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from boxwright.ledger.store import Ledger
from boxwright.live.desk import Desk
from boxwright.live.events import Event
from boxwright.live.state import State, fold
from boxwright.messages import words
from boxwright.problems import Message, Refused
from tests.live.plays import EDITION, NAMES, ObedientClock, draft, streams


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    with Ledger(tmp_path / "ledger.db") as made:
        yield made


@pytest.fixture
def desk(ledger: Ledger) -> Desk:
    return Desk(ledger, ObedientClock())


@pytest.fixture
def session(desk: Desk) -> str:
    return desk.open([EDITION], 1500, NAMES)


def clock_of(desk: Desk) -> ObedientClock:
    assert isinstance(desk.clock, ObedientClock)
    return desk.clock


def said(note: Message | None) -> str:
    return "" if note is None else words(note)


def refused(desk: Desk, session: str, kind: str, **data: Any) -> str:
    """Send what cannot be, see that nothing is kept, and return the problem's code."""
    before = desk.events(session)
    with pytest.raises(Refused) as caught:
        desk.take(session, draft(kind, **data))
    assert desk.events(session) == before
    (problem,) = caught.value.problems
    for message in (problem.what, problem.remedy):
        assert words(message) != message.id
    return problem.code


# --- opening and finding -------------------------------------------------------------------


def test_a_session_opens_with_its_groups(desk: Desk, session: str) -> None:
    state = desk.state(session)
    assert {id: group.name for id, group in state.groups.items()} == NAMES
    assert state.editions == {"1": EDITION.id, "2": EDITION.id}
    assert state.clock.planned_s == 1500


@pytest.mark.parametrize(
    ("names", "code"),
    [
        ({}, "live.no-groups"),
        ({"3": "Lamp"}, "live.no-edition"),
        ({"1": "Lamp", "2": " lamp"}, "live.same-name"),
        ({"1": "x" * 41}, "live.too-long"),
        ({"1": "two\nlines"}, "live.one-line"),
        ({"1": "  "}, "live.empty"),
    ],
)
def test_a_session_that_cannot_be_opened_is_not(
    desk: Desk, names: dict[str, str], code: str
) -> None:
    with pytest.raises(Refused) as caught:
        desk.open([EDITION], 1500, names)
    assert caught.value.problems[0].code == code
    assert desk.sessions() == ()


@pytest.mark.parametrize("planned", [0, -5, 10**6])
def test_a_time_that_cannot_be_is_refused(desk: Desk, planned: int) -> None:
    with pytest.raises(Refused) as caught:
        desk.open([EDITION], planned, NAMES)
    assert caught.value.problems[0].code == "live.no-time"


def test_a_name_of_forty_signs_is_fine(desk: Desk) -> None:
    session = desk.open([EDITION], 60, {"1": "x" * 40})
    assert desk.state(session).groups["1"].name == "x" * 40


def test_after_a_restart_it_is_taken_up_from_the_ledger_alone(
    desk: Desk, ledger: Ledger, session: str
) -> None:
    desk.take(session, draft("clock.started"))
    clock_of(desk).passes(40)
    desk.take(session, draft("lock.opened", group="1", lock="front"))
    again = Desk(ledger, clock_of(desk))
    assert again.last_unfinished("test-game") == session
    assert again.state(session) == desk.state(session)
    assert again.editions(session) == {"1": EDITION, "2": EDITION}


def test_the_last_unfinished_session_is_the_newest_that_nobody_closed(desk: Desk) -> None:
    first = desk.open([EDITION], 1500, NAMES)
    clock_of(desk).passes(60)
    second = desk.open([EDITION], 1500, NAMES)
    assert [one.id for one in desk.sessions("test-game")] == [second, first]
    assert desk.last_unfinished("test-game") == second
    closing = desk.take(second, draft("session.closed"))
    assert desk.last_unfinished("test-game") == first
    desk.take(second, draft("undone", event=closing.event.id))
    assert desk.last_unfinished("test-game") == second
    assert desk.last_unfinished("another-game") is None


def test_a_glance_reads_no_more_than_is_new_to_it(
    desk: Desk, ledger: Ledger, session: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = Desk(ledger, clock_of(desk))
    [listed] = other.sessions()
    assert other.glance(listed) == desk.state(session)
    desk.take(session, draft("clock.started"))
    [longer] = other.sessions()
    assert other.glance(longer) == desk.state(session)
    monkeypatch.setattr(ledger, "events", None)
    assert other.glance(longer) == desk.glance(longer)
    assert other.glance(longer).clock.runs


def test_a_glance_tells_listeners_what_it_finds(desk: Desk, ledger: Ledger, session: str) -> None:
    heard: list[str] = []
    desk.listen(session, lambda event, state: heard.append(event.type))
    Desk(ledger, clock_of(desk)).take(session, draft("clock.started"))
    assert desk.glance(desk.sessions()[0]).clock.runs
    assert heard == ["clock.started"]


def test_a_session_that_is_forgotten_is_not_known_any_more(desk: Desk, session: str) -> None:
    desk.forget(session)
    with pytest.raises(Refused) as caught:
        desk.state(session)
    assert caught.value.problems[0].code == "live.no-session"


# --- taking --------------------------------------------------------------------------------


def test_what_is_taken_carries_the_time_and_who_sent_it(desk: Desk, session: str) -> None:
    now = clock_of(desk).now()
    event = desk.take(session, draft("clock.started", device="d-3")).event
    assert (event.wall, event.since_boot_ms, event.boot) == (now.wall, now.since_boot_ms, now.boot)
    assert (event.device, event.rights, event.session, event.seq) == ("d-3", "teacher", session, 4)


def test_it_is_in_the_ledger_before_anybody_hears_of_it(
    desk: Desk, ledger: Ledger, session: str
) -> None:
    heard: list[tuple[int, bool]] = []

    def listener(event: Event, state: State) -> None:
        heard.append((state.seq, event in ledger.events(session)))

    end = desk.listen(session, listener)
    desk.take(session, draft("clock.started"))
    desk.take(session, draft("lock.opened", group="1", lock="front"))
    end()
    desk.take(session, draft("clock.ended"))
    assert heard == [(4, True), (5, True)]


def test_a_listener_that_fails_spoils_it_for_nobody(
    desk: Desk, session: str, caplog: pytest.LogCaptureFixture
) -> None:
    heard: list[str] = []

    def fails(event: Event, state: State) -> None:
        raise RuntimeError(event.type)

    desk.listen(session, fails)
    desk.listen(session, lambda event, _: heard.append(event.type))
    desk.take(session, draft("clock.started"))
    assert heard == ["clock.started"]
    assert "clock.started" in caplog.text


def test_what_is_sent_twice_is_kept_and_told_once_and_answered_alike(
    desk: Desk, session: str
) -> None:
    heard: list[Event] = []
    desk.take(session, draft("lock.opened", group="1", lock="front", device="d-1"))
    desk.listen(session, lambda event, _: heard.append(event))
    second = draft("lock.opened", group="1", lock="front", device="d-2")
    once, twice = desk.take(session, second), desk.take(session, second)
    assert once == twice
    assert "d-1" in said(once.note)
    assert heard == [once.event]


def test_an_id_of_another_session_is_refused(desk: Desk, session: str) -> None:
    other = desk.open([EDITION], 1500, NAMES)
    desk.take(other, draft("clock.started", id="the-same-id"))
    assert refused(desk, session, "clock.started", id="the-same-id") == "live.id-taken"


def test_a_tap_from_the_future_counts_as_now(desk: Desk, session: str) -> None:
    from dataclasses import replace

    tap = replace(draft("clock.started"), happened_ms=5_000)
    assert desk.take(session, tap).event.happened_ms == 0


@pytest.mark.parametrize(
    ("kind", "data", "note"),
    [
        ("lock.opened", {"group": "1", "lock": "front"}, "Window opened the lock front"),
        ("item.found", {"group": "1", "item": "torch"}, "Window found torch"),
        ("clue.taken", {"group": "2", "clue": "map"}, "Door began the clue map"),
        ("hint.given", {"group": "1", "clue": "map", "line": 1}, "hint 1"),
        ("group.finished", {"group": "1", "outcome": "won"}, "Window won"),
        ("step.ticked", {"list": "reset", "step": "count"}, "count is done"),
    ],
)
def test_who_comes_second_is_told_who_was_first_and_when(
    desk: Desk, session: str, kind: str, data: dict[str, Any], note: str
) -> None:
    desk.take(session, draft("clock.started"))
    clock_of(desk).passes(83)
    assert desk.take(session, draft(kind, device="d-7", **data)).note is None
    clock_of(desk).passes(10)
    answer = said(desk.take(session, draft(kind, device="d-8", **data)).note)
    assert note in answer
    assert "1:23" in answer
    assert "d-7" in answer


def test_what_changes_nothing_is_told(desk: Desk, session: str) -> None:
    notes = [
        said(desk.take(session, draft(kind, device=f"d-{at}")).note)
        for at, kind in enumerate(
            ["clock.held", "clock.started", "clock.started", "clock.ended", "clock.resumed",
             "session.closed", "session.closed"]
        )
    ]  # fmt: skip
    assert [bool(note) for note in notes] == [True, False, True, False, True, False, True]
    assert "running" in notes[2]
    assert "over" in notes[4]


def test_more_hints_than_the_game_gives_are_given_and_remarked(desk: Desk, session: str) -> None:
    notes = [
        desk.take(session, draft("hint.given", group="1", clue="map", line=line)).note
        for line in (1, 2, 3)
    ]
    assert notes[:2] == [None, None]
    assert "hint 3" in said(notes[2])
    assert "gives 2" in said(notes[2])


def test_undoing_twice_is_told(desk: Desk, session: str) -> None:
    gone = desk.take(session, draft("clock.started")).event.id
    assert desk.take(session, draft("undone", device="d-1", event=gone)).note is None
    assert "before" in said(desk.take(session, draft("undone", device="d-2", event=gone)).note)
    assert desk.state(session).clock.status == "not-started"


# --- what cannot be ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "data", "code"),
    [
        ("lock.opend", {}, "live.no-type-but"),
        ("zzz", {}, "live.no-type"),
        ("lock.opened", {"group": "1"}, "live.wrong-data"),
        ("lock.opened", {"group": "1", "lock": 3}, "live.wrong-data"),
        ("lock.opened", {"group": "1", "lock": "front", "code": "427"}, "live.wrong-data"),
        ("clock.started", {"now": True}, "live.no-data"),
        ("lock.opened", {"group": "7", "lock": "front"}, "live.no-group"),
        ("lock.opened", {"group": "1", "lock": "frnt"}, "live.no-lock-but"),
        ("lock.opened", {"group": "1", "lock": "zzzz"}, "live.no-lock"),
        ("item.found", {"group": "1", "item": "notess"}, "live.no-item-but"),
        ("hint.given", {"group": "1", "clue": "mapp", "line": 1}, "live.no-clue-but"),
        ("hint.given", {"group": "1", "clue": "map", "line": 4}, "live.no-line"),
        ("hint.given", {"group": "1", "clue": "map", "line": 0}, "live.no-line"),
        ("note.made", {"text": "x", "group": "7"}, "live.no-group"),
        ("note.made", {"text": "x" * 2001}, "live.too-long"),
        ("note.made", {"text": "\ud800"}, "live.one-line"),
        ("mishap.mended", {"event": "event-1234"}, "live.no-mishap"),
        ("undone", {"event": "event-1234"}, "live.no-event"),
        ("group.joined", {"group": "1", "name": "Door", "edition": EDITION.id}, "live.same-name"),
        ("group.joined", {"group": "1", "name": "x", "edition": "y"}, "live.other-edition"),
        ("clock.moved", {"wall_change_ms": 5}, "live.desks-own"),
        ("clock.extended", {"seconds": 0}, "live.no-time"),
        ("clock.started", {"id": "no id!"}, "live.wrong-head"),
        ("clock.started", {"device": ""}, "live.wrong-head"),
    ],
)
def test_what_the_session_does_not_have_is_refused_with_the_choices(
    desk: Desk, session: str, kind: str, data: dict[str, Any], code: str
) -> None:
    assert refused(desk, session, kind, **data) == code


def test_data_that_is_no_object_is_refused(desk: Desk, session: str) -> None:
    from dataclasses import replace

    tap: Any = replace(draft("lock.opened"), data=["group"])  # type: ignore[arg-type]
    with pytest.raises(Refused):
        desk.take(session, tap)


def test_opening_cannot_be_undone(desk: Desk, session: str) -> None:
    first = desk.events(session)[0]
    assert refused(desk, session, "undone", event=first.id) == "live.for-good"


# --- walls that jump -----------------------------------------------------------------------


def test_a_wall_that_jumps_while_the_game_runs_is_noted(desk: Desk, session: str) -> None:
    clock = clock_of(desk)
    desk.take(session, draft("clock.started"))
    clock.passes(100)
    clock.jumps(-3600)
    desk.take(session, draft("lock.opened", group="1", lock="front"))
    moved, opened = desk.events(session)[-2:]
    assert (moved.type, moved.data) == ("clock.moved", {"wall_change_ms": -3_600_000})
    assert opened.type == "lock.opened"
    clock.reboots(30)
    desk.take(session, draft("lock.opened", group="1", lock="side"))
    assert desk.state(session).groups["1"].opened["side"].at_ms == 130_000
    assert len(desk.events(session)) == 7


def test_a_wall_that_is_corrected_a_little_or_before_the_game_is_not(
    desk: Desk, session: str
) -> None:
    clock_of(desk).jumps(900)
    desk.take(session, draft("clock.started"))
    clock_of(desk).jumps(1.5)
    desk.take(session, draft("clock.held"))
    assert "clock.moved" not in {event.type for event in desk.events(session)}


# --- several at once -----------------------------------------------------------------------


def test_two_desks_on_one_ledger_hear_of_each_other(
    desk: Desk, ledger: Ledger, session: str
) -> None:
    other, heard = Desk(ledger, clock_of(desk)), list[str]()
    desk.listen(session, lambda event, _: heard.append(event.device))
    other.take(session, draft("lock.opened", group="1", lock="front", device="d-1"))
    answer = desk.take(session, draft("lock.opened", group="1", lock="front", device="d-2"))
    assert "d-1" in said(answer.note)
    assert heard == ["d-1", "d-2"]
    assert desk.state(session) == other.state(session)


def test_a_tap_that_another_desk_forestalls_is_told_so(
    desk: Desk, ledger: Ledger, session: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    other, append = Desk(ledger, clock_of(desk)), ledger.append
    tap = draft("lock.opened", group="1", lock="front", device="d-1")

    def forestalled(event: Event) -> Event:
        monkeypatch.setattr(ledger, "append", append)
        other.take(session, tap)
        return append(event)

    monkeypatch.setattr(ledger, "append", forestalled)
    late = draft("lock.opened", group="1", lock="front", device="d-2")
    assert "d-1" in said(desk.take(session, late).note)


def test_many_threads_tap_at_once_and_all_hear_the_same_in_order(desk: Desk, session: str) -> None:
    heard: list[int] = []
    desk.listen(session, lambda event, _: heard.append(event.seq))

    def taps(name: str) -> None:
        for number in range(8):
            tap = draft("note.made", device=name, text=str(number))
            desk.take(session, tap)

    threads = [threading.Thread(target=taps, args=(f"d-{name}",)) for name in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert heard == list(range(4, 36))
    assert desk.state(session) == fold(desk.events(session))


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(streams())
def test_the_fold_in_memory_is_the_fold_of_all(desk: Desk, events: list[Event]) -> None:
    from boxwright.live.drafts import Draft

    session = desk.open([EDITION], 1500, NAMES)
    ids: dict[str, str] = {}
    for event in events[3:]:
        data = dict(event.data)
        if "event" in data:
            data["event"] = ids.get(data["event"], data["event"])
        ids[event.id] = f"{session}-{event.id}"[-60:]
        tap = Draft(event.type, data, ids[event.id], event.device, "teacher", event.happened_ms)
        try:
            desk.take(session, tap)
        except Refused:
            continue
    assert desk.state(session) == fold(desk.ledger.events(session))
    assert Desk(desk.ledger, desk.clock).state(session) == desk.state(session)
