"""The fold: total, without duplicates, and blind to what was undone."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from boxwright.live.events import DATA, Event
from boxwright.live.state import State, advance, fold
from tests.live.plays import DATA as DRAWN
from tests.live.plays import Play, opened, streams


def seen(state: State) -> State:
    """Return all of a state but how many events it has taken, and what could be redone."""
    return replace(state, seq=0, redo=())


def undoing(events: list[Event], id: str, name: str = "undoing-1") -> Event:
    """Return the event that undoes another, last of all."""
    last = events[-1]
    return replace(
        last, id=name, seq=last.seq + 1, type="undone", data={"event": id}, happened_ms=0
    )


# --- whatever happens --------------------------------------------------------------------


def test_the_streams_hold_every_type_there_is() -> None:
    assert {*DRAWN, "session.opened", "undone", "mishap.mended"} == set(DATA)


@given(streams(), st.data())
def test_any_beginning_folds_and_one_event_more_leads_from_it_to_the_next(
    events: list[Event], data: st.DataObject
) -> None:
    size = data.draw(st.integers(0, len(events) - 1))
    state = fold(events[:size])
    assert state.seq == size
    assert advance(state, events[:size], events[size]) == fold(events[: size + 1])


@given(streams(), st.data())
def test_what_was_undone_never_happened(events: list[Event], data: st.DataObject) -> None:
    gone = data.draw(st.sampled_from(events))
    rest = [event for event in events if event.id != gone.id]
    assert seen(fold([*events, undoing(events, gone.id)])) == seen(fold(rest))


@given(streams(), st.data())
def test_an_undoing_that_is_undone_never_happened(events: list[Event], data: st.DataObject) -> None:
    gone = data.draw(st.sampled_from(events))
    first = undoing(events, gone.id)
    second = undoing([*events, first], first.id, "undoing-2")
    assert seen(fold([*events, first, second])) == seen(fold(events))


@given(streams(), st.data())
def test_duplicates_and_disorder_change_nothing(events: list[Event], data: st.DataObject) -> None:
    more = data.draw(st.lists(st.sampled_from(events)))
    mixed = data.draw(st.permutations([*events, *more]))
    assert fold(mixed) == fold(events)
    state = fold(events)
    for event in more:
        assert advance(state, events, event) is state


@given(streams())
def test_everything_can_be_undone_step_by_step_and_redone(events: list[Event]) -> None:
    stream, undoings = list(events), 0
    whole = fold(stream)
    while (state := fold(stream)).undo:
        undoings += 1
        stream.append(undoing(stream, state.undo[-1].id, f"back-{undoings:03}"))
    assert undoings <= len(events)
    assert {one.id for one in stream[len(events) :]} <= {one.id for one in state.redo}
    for number in range(undoings):
        stream.append(undoing(stream, fold(stream).redo[-1].id, f"forth-{number:03}"))
    assert seen(fold(stream)) == seen(whole)


# --- one by one --------------------------------------------------------------------------


def test_an_opened_session_knows_its_groups_and_its_time() -> None:
    state = fold(opened().events)
    assert {id: group.name for id, group in state.groups.items()} == {"1": "Window", "2": "Door"}
    assert (state.clock.status, state.clock.planned_s, state.purpose) == (
        "not-started",
        1500,
        "class",
    )
    assert state.undo == ()


def test_steps_of_setting_up_are_ticked_before_the_clock_starts() -> None:
    play = opened()
    play.says("step.ticked", list="set-up", step="set/front", photo="a.jpg")
    play.says("step.ticked", list="set-up", step="set/front", device="d-2")
    ticked = fold(play.events).ticked["set-up"]
    assert [(step, done.device, done.at_ms) for step, done in ticked.items()] == [
        ("set/front", "d-1", 0)
    ]


def test_the_first_to_open_a_lock_counts_and_the_second_changes_nothing() -> None:
    play = _running()
    first = play.says("lock.opened", group="1", lock="front", device="d-1")
    before = fold(play.events)
    play.says("lock.opened", group="1", lock="front", device="d-2")
    after = fold(play.events)
    assert after == replace(before, seq=after.seq)
    assert after.groups["1"].opened["front"].event == first.id
    assert after.groups["1"].last_success == after.groups["1"].opened["front"]
    assert after.groups["2"].opened == {}


def test_when_the_first_is_undone_the_second_was_first() -> None:
    play = _running()
    first = play.says("lock.opened", group="1", lock="front", device="d-1")
    play.says("lock.opened", group="1", lock="front", device="d-2")
    play.says("undone", event=first.id)
    assert fold(play.events).groups["1"].opened["front"].device == "d-2"


def test_a_late_tap_counts_when_it_was_made() -> None:
    play = _running()
    play.clock.passes(60)
    play.says("lock.opened", group="1", lock="front", ago_s=20)
    assert fold(play.events).groups["1"].opened["front"].at_ms == 41_000


def test_wrong_codes_and_hints_are_counted_in_all_and_one_by_one() -> None:
    play = _running()
    for lock, right in (("front", False), ("front", False), ("front", True), ("side", False)):
        play.says("code.tried", group="1", lock=lock, right=right)
    for clue, line in (("map", 1), ("map", 2), ("map", 2), ("list", 1)):
        play.says("hint.given", group="1", clue=clue, line=line)
    group = fold(play.events).groups["1"]
    assert (group.wrong, group.wrong_on("front"), group.wrong_on("lid")) == (3, 2, 0)
    assert (len(group.hints), group.hints_for("map"), group.hints_for("picture")) == (3, 2, 0)


def test_a_mishap_is_mended_once() -> None:
    play = _running()
    jam = play.says("mishap.noted", thing="front", what="jammed", note="wheel 2", group="1")
    play.says("mishap.mended", event=jam.id, how="oil")
    play.says("mishap.mended", event=jam.id, how="a hammer")
    (mishap,) = fold(play.events).mishaps
    assert (mishap.how, mishap.group, mishap.note) == ("oil", "1", "wheel 2")
    assert mishap.mended is not None


def test_a_group_may_get_another_name_and_keeps_what_it_did() -> None:
    play = _running()
    play.says("lock.opened", group="1", lock="front")
    play.says("group.joined", group="1", name="Lamp", edition="x")
    group = fold(play.events).groups["1"]
    assert (group.name, list(group.opened)) == ("Lamp", ["front"])


def test_closing_ends_the_clock_and_undoing_that_goes_on() -> None:
    play = _running()
    closing = play.says("session.closed")
    assert (fold(play.events).closed, fold(play.events).clock.status) == (True, "ended")
    play.says("undone", event=closing.id)
    assert (fold(play.events).closed, fold(play.events).clock.status) == (False, "running")


def test_a_session_is_marked_broken_and_sound_again() -> None:
    play = _running()
    play.says("session.marked", broken=True, why="fire drill")
    assert fold(play.events).broken == "fire drill"
    play.says("session.marked", broken=False, why="")
    assert fold(play.events).broken is None


def test_something_new_leaves_nothing_to_redo() -> None:
    play = _running()
    gone = play.says("lock.opened", group="1", lock="front")
    undone = play.says("undone", event=gone.id)
    assert fold(play.events).redo == (undone,)
    play.says("note.made", text="new", group=None)
    assert fold(play.events).redo == ()


def test_what_a_later_version_may_add_is_passed_over() -> None:
    play = _running()
    before = fold(play.events)
    play.says("comet.seen", group="1")
    assert replace(fold(play.events), seq=before.seq) == before


def _running() -> Play:
    play = opened()
    play.says("clock.started")
    return play
