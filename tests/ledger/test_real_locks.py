"""Real locks and the lock book: what is known of each, and what can be noted."""

from __future__ import annotations

from typing import Any

import pytest

from boxwright.game.mechanisms import device_of
from boxwright.game.model import KitLock
from boxwright.ledger.lock_book import LockEvent, LockEventType, fold
from boxwright.ledger.real_locks import RealLock
from boxwright.problems import Refused, Where

HERE = Where("code")


def lock(**more: Any) -> RealLock:
    make = KitLock.model_validate({"mechanism": "number-wheels", "wheels": 3} | more)
    return RealLock("shelf", "N1", make, device_of(make, HERE))


def done(kind: LockEventType, code: str | None = None) -> LockEvent:
    return LockEvent(f"event-{kind}-{code}", "shelf", "N1", kind, "2031-05-06T09:12:03.120Z", code)


def test_a_lock_that_nobody_set_is_not_known() -> None:
    assert lock().record({}).code is None


def test_a_lock_that_cannot_be_set_is_known_without_a_book() -> None:
    assert lock(fixed=True, code="123").record({}).code == "123"


def test_what_always_opens_a_lock_can_be_lost_and_found() -> None:
    worn = lock(fixed=True, code="123")
    found = worn.record(fold([done("lock.lost")]))
    assert (found.code, found.meant) == (None, "123")
    assert worn.record(fold([done("lock.lost"), done("lock.found", "124")])).code == "124"


def test_a_code_is_written_in_one_way() -> None:
    assert lock().settable("4 2 7", HERE) == "427"


@pytest.mark.parametrize(
    ("shape", "code", "said"),
    [
        ({}, "42", "mechanism.wrong-length"),
        ({"fixed": True, "code": "123"}, "427", "locks.fixed"),
        ({"mechanism": "key", "wheels": None}, "427", "locks.key"),
    ],
)
def test_what_it_cannot_be_set_to_is_refused(shape: dict[str, Any], code: str, said: str) -> None:
    with pytest.raises(Refused) as refused:
        lock(**shape).settable(code, HERE)
    assert refused.value.problems[0].code.startswith(said)


def test_a_search_goes_through_earlier_codes_and_the_one_at_rest() -> None:
    resting = lock(shelf_code="111")
    book = fold([done("lock.set", "555"), done("lock.set", "427"), done("lock.lost")])
    assert resting.earlier(resting.record(book)) == (("5", "5", "5"), ("1", "1", "1"))


def test_a_code_from_before_the_lock_was_changed_is_passed_over() -> None:
    book = fold([done("lock.set", "5555"), done("lock.set", "427"), done("lock.lost")])
    assert lock().earlier(lock().record(book)) == ()
