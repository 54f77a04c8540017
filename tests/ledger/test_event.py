"""Ids that sort by time, and instants there and back again."""

from __future__ import annotations

import uuid

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.ledger.event import new_id, wall_ms, wall_text


@given(st.integers(0, 250_000_000_000_000))
def test_an_instant_goes_into_text_and_back(ms: int) -> None:
    assert wall_ms(wall_text(ms)) == ms


def test_an_instant_is_written_in_utc_with_milliseconds() -> None:
    assert wall_text(1_935_911_523_120) == "2031-05-07T09:12:03.120Z"


def test_what_is_no_instant_is_an_error() -> None:
    with pytest.raises(ValueError, match="instant"):
        wall_ms("instant")


@given(st.integers(0, 2**48 - 1))
def test_an_id_is_a_uuid_of_version_7(ms: int) -> None:
    found = uuid.UUID(new_id(ms))
    assert (found.version, found.variant) == (7, uuid.RFC_4122)
    assert found.int >> 80 == ms


def test_ids_sort_by_time_and_differ_within_a_millisecond() -> None:
    assert new_id(1) < new_id(2) < new_id(10_000)
    assert len({new_id(5) for _ in range(100)}) == 100
