"""The lock book: what each lock is set to, since when, for which game."""

from __future__ import annotations

from itertools import count
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from boxwright.ledger.event import wall_text
from boxwright.ledger.lock_book import (
    TYPES,
    WITH_CODE,
    LockEvent,
    LockEventType,
    fold,
    read,
    record,
)
from boxwright.ledger.store import Ledger

NUMBERS = count(1)


def done(
    kind: LockEventType, code: str | None = None, game: str | None = None, **more: str
) -> LockEvent:
    """Return an event of the lock N1 on the shelf, unless another is named."""
    number = next(NUMBERS)
    names = {"kit": "shelf", "tag": "N1"} | more
    wall = wall_text(number * 1000)
    return LockEvent(f"lock-event-{number:06}", type=kind, wall=wall, code=code, game=game, **names)


def undone(event: LockEvent) -> LockEvent:
    """Return the undoing of an event."""
    return done("lock.undone", kit=event.kit, tag=event.tag, undone=event.id)


def test_a_lock_that_was_set_is_known_with_its_game_and_since_when() -> None:
    event = done("lock.set", "427", "tide-mill")
    found = fold([event])["shelf", "N1"]
    assert (found.code, found.game, found.since) == ("427", "tide-mill", event.wall)
    assert found.history == (event,)


def test_nothing_is_known_of_a_lock_that_the_book_does_not_have() -> None:
    assert ("shelf", "N2") not in fold([done("lock.set", "427")])


def test_the_same_sticker_in_two_kits_means_two_locks() -> None:
    book = fold([done("lock.set", "427"), done("lock.set", "111", kit="crate")])
    assert (book["shelf", "N1"].code, book["crate", "N1"].code) == ("427", "111")


def test_a_lost_code_is_not_known_but_what_was_meant_stays() -> None:
    found = fold([done("lock.set", "427"), done("lock.lost")])["shelf", "N1"]
    assert (found.code, found.meant) == (None, "427")


def test_a_code_that_was_found_counts_and_is_checked() -> None:
    events = [done("lock.set", "427"), done("lock.lost"), done("lock.found", "437")]
    found = fold(events)["shelf", "N1"]
    assert (found.code, found.checked, found.earlier) == ("437", events[2].wall, ("427",))


def test_a_check_brings_back_a_code_that_was_thought_lost() -> None:
    found = fold([done("lock.set", "427"), done("lock.lost"), done("lock.checked")])["shelf", "N1"]
    assert found.code == "427"


def test_setting_anew_takes_the_check_away_and_leaves_the_battery() -> None:
    events = [
        done("lock.set", "1"),
        done("lock.checked"),
        done("lock.battery"),
        done("lock.set", "2"),
    ]
    found = fold(events)["shelf", "N1"]
    assert (found.code, found.checked, found.battery) == ("2", None, events[2].wall)


def test_a_check_of_a_lock_that_was_never_set_tells_no_code() -> None:
    assert fold([done("lock.checked")])["shelf", "N1"].code is None


def test_earlier_codes_come_last_first_and_each_once() -> None:
    codes = ("1", "2", "1", "3", "2", "4")
    found = fold([done("lock.set", code) for code in codes])["shelf", "N1"]
    assert found.earlier == ("2", "3", "1")


def test_what_was_undone_never_happened() -> None:
    first, second = done("lock.set", "427", "tide-mill"), done("lock.set", "111", "other")
    assert fold([first, second, undone(second)]) == fold([first])
    assert fold([first, undone(first)]) == {}


def test_what_is_done_again_after_an_undoing_counts() -> None:
    first, again = done("lock.set", "427"), done("lock.set", "427")
    assert fold([first, undone(first), again]) == fold([again])


@given(st.lists(st.tuples(st.sampled_from(TYPES), st.sampled_from("ab"), st.sampled_from("123"))))
def test_any_beginning_folds_and_locks_do_not_mix(
    acts: list[tuple[LockEventType, str, str]],
) -> None:
    events: list[LockEvent] = []
    for kind, tag, code in acts:
        mine = [one for one in events if one.tag == tag]
        more = {"undone": mine[-1].id} if kind == "lock.undone" and mine else {}
        events.append(done(kind, code if kind in WITH_CODE else None, tag=tag, **more))
    for size in range(len(events) + 1):
        book = fold(events[:size])
        taken_back = {event.undone for event in events[:size]}
        for (_, tag), found in book.items():
            alone = [event for event in events[:size] if event.tag == tag]
            stands = [one for one in alone if one.type != "lock.undone"]
            assert fold(alone)["shelf", tag] == found
            assert found.history == tuple(one for one in stands if one.id not in taken_back)


def test_it_is_kept_in_the_ledger_once_each(tmp_path: Path) -> None:
    first, checked = done("lock.set", "427", "tide-mill"), done("lock.checked")
    second = undone(checked)
    with Ledger(tmp_path / "ledger.db") as ledger:
        assert record(ledger, first) == first
        record(ledger, checked)
        record(ledger, second)
        assert record(ledger, first) == first
    with Ledger(tmp_path / "ledger.db") as ledger:
        assert read(ledger) == fold([first])
