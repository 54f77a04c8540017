"""Lists that are ticked: what is left, and what a tick of a lock writes into the lock book."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import count
from pathlib import Path

import pytest

from boxwright.build import Asked, build
from boxwright.choose.card import written
from boxwright.choose.gear import Gear
from boxwright.game.choosing import Wishes
from boxwright.ledger.lock_book import LockEvent, LockRecord, read, record
from boxwright.ledger.store import Ledger
from boxwright.live.at_hand import prepared
from boxwright.live.checklist import Checklist
from boxwright.live.desk import Desk
from boxwright.live.ticking import Tap, tick, ticked, untick
from tests.games import EXAMPLES
from tests.live.plays import ObedientClock, draft

NUMBERS = count(1)


@cache
def todo() -> Checklist:
    made = build(Asked(EXAMPLES / "tide-mill", Wishes(groups=2)))
    return Checklist("set-up", tuple(Gear(edition, made.folder) for edition in made.editions))


GEAR = todo().gears[0]
LOCK = next(id for id, one in GEAR.edition.game.locks.items() if one.mechanism == "number-wheels")
KEYED = next(id for id, one in GEAR.edition.game.locks.items() if one.mechanism == "key")
SET, TEST = f"set:{LOCK}:1", f"test:{LOCK}:1"


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with Ledger(tmp_path / "ledger.db") as ledger:
        yield Desk(ledger, ObedientClock())


@pytest.fixture
def session(desk: Desk) -> str:
    return prepared(desk, [gear.edition for gear in todo().gears])


def tap(device: str = "d-1", ago_ms: int = 0) -> Tap:
    return Tap(f"tap-{next(NUMBERS):06}", device, ago_ms)


def done(desk: Desk, session: str) -> set[str]:
    return set(ticked(desk, session, "set-up"))


def leaf(desk: Desk, lock: str = LOCK, group: str = "1") -> LockRecord | None:
    kit = GEAR.folder.kit
    assert kit is not None
    return read(desk.ledger).get((kit.kit.id, GEAR.edition.stickers[group][lock]))


# what is left


def test_a_step_is_done_with_its_last_box() -> None:
    one, both = todo().left({SET}), todo().left({SET, f"set:{LOCK}:2"})
    nothing = todo().left(())
    assert (nothing.done, one.done, both.done) == (0, 0, 1)
    assert nothing.seconds - one.seconds == one.seconds - both.seconds == 60


def test_what_is_done_for_the_whole_class_stands_there_once() -> None:
    unlike = Wishes(groups=2, levels={"1": "easier", "2": "harder"})
    made = build(Asked(EXAMPLES / "tide-mill", unlike))
    several = Checklist("set-up", tuple(Gear(one, made.folder) for one in made.editions))
    assert len(several.gears) == 2
    acts = [step.act for _, steps in several.steps for step in steps]
    assert (acts.count("read"), acts.count("keep"), acts.count("cut")) == (1, 1, 2)


def test_minutes_are_left_until_all_is_done() -> None:
    all_boxes = set(todo().boxes)
    assert todo().left(all_boxes).minutes == 0
    last = next(id for id, box in todo().boxes.items() if box.step.act == "pull")
    assert todo().left(all_boxes - {last}).minutes == 1


# ticking


def test_a_tick_stands_until_it_is_taken_back(desk: Desk, session: str) -> None:
    tick(desk, session, todo(), SET, tap())
    assert done(desk, session) == {SET}
    untick(desk, session, todo(), SET, tap())
    assert done(desk, session) == set()


def test_two_tablets_tick_one_box_once(desk: Desk, session: str) -> None:
    tick(desk, session, todo(), SET, tap("d-1"))
    tick(desk, session, todo(), SET, tap("d-2"))
    untick(desk, session, todo(), SET, tap("d-2"))
    assert done(desk, session) == set()


def test_a_box_that_two_programs_ticked_is_free_after_one_taking_back(
    desk: Desk, session: str
) -> None:
    for device in ("d-1", "d-2"):
        again = draft("step.ticked", device=device, list="set-up", step=SET)
        desk.take(session, again)
    untick(desk, session, todo(), SET, tap())
    assert done(desk, session) == set()


def test_a_tap_that_comes_again_late_changes_nothing(desk: Desk, session: str) -> None:
    first, back = tap(), tap()
    tick(desk, session, todo(), SET, first)
    untick(desk, session, todo(), SET, back)
    tick(desk, session, todo(), SET, first)
    assert done(desk, session) == set()
    tick(desk, session, todo(), SET, tap())
    untick(desk, session, todo(), SET, back)
    assert done(desk, session) == {SET}


def test_a_box_of_another_list_is_no_box_of_this_one(desk: Desk, session: str) -> None:
    with pytest.raises(KeyError):
        tick(desk, session, todo(), "count::1", tap())


# the lock book


def test_a_lock_that_is_set_stands_in_the_book_with_code_and_game(desk: Desk, session: str) -> None:
    tick(desk, session, todo(), SET, tap())
    found = leaf(desk)
    assert found is not None
    assert (found.code, found.game) == (written(GEAR, LOCK), "tide-mill")
    assert leaf(desk, group="2") is None


def test_it_was_set_when_it_was_tapped_not_when_that_arrived(desk: Desk, session: str) -> None:
    tick(desk, session, todo(), SET, tap(ago_ms=-90_000))
    found = leaf(desk)
    assert found is not None
    assert found.since == desk.clock.now().moved(-90_000).wall


def test_a_test_counts_as_a_check(desk: Desk, session: str) -> None:
    tick(desk, session, todo(), SET, tap())
    tick(desk, session, todo(), TEST, tap())
    found = leaf(desk)
    assert found is not None
    assert [event.type for event in found.history] == ["lock.set", "lock.checked"]


def test_a_test_of_a_lock_that_the_book_does_not_know_tells_its_code(
    desk: Desk, session: str
) -> None:
    tick(desk, session, todo(), TEST, tap())
    found = leaf(desk)
    assert found is not None
    assert (found.code, found.game) == (written(GEAR, LOCK), "tide-mill")


def test_a_tick_by_mistake_leaves_the_book_as_it_was(desk: Desk, session: str) -> None:
    kit = GEAR.folder.kit
    assert kit is not None
    tag = GEAR.edition.stickers["1"][LOCK]
    before = LockEvent("event-before", kit.kit.id, tag, "lock.set", desk.clock.now().wall, "999")
    record(desk.ledger, before)
    tick(desk, session, todo(), SET, tap())
    untick(desk, session, todo(), SET, tap())
    found = leaf(desk)
    assert found is not None
    assert found.history == (before,)


def test_what_did_not_reach_the_book_does_so_when_the_tap_comes_again(
    desk: Desk, session: str
) -> None:
    cut_off = tap()
    desk.take(session, cut_off.draft("step.ticked", list="set-up", step=SET))
    assert leaf(desk) is None
    tick(desk, session, todo(), SET, cut_off)
    assert leaf(desk) is not None


def test_a_taking_back_that_did_not_reach_the_book_does_so_when_it_comes_again(
    desk: Desk, session: str
) -> None:
    first, back = tap(), tap()
    tick(desk, session, todo(), SET, first)
    desk.take(session, back.draft("undone", event=first.id))
    untick(desk, session, todo(), SET, back)
    assert leaf(desk) is None


def test_other_steps_and_padlocks_tell_the_book_no_code(desk: Desk, session: str) -> None:
    for id in (f"scramble:{LOCK}:1", f"set:{KEYED}:1", "cut::1"):
        tick(desk, session, todo(), id, tap())
    assert read(desk.ledger) == {}
    tick(desk, session, todo(), f"test:{KEYED}:1", tap())
    found = leaf(desk, KEYED)
    assert found is not None
    assert (found.code, found.checked) == (None, desk.clock.now().wall)
