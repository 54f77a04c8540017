"""What is appended is kept once, in order, and by whom else it may be read at once."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from boxwright.ledger.store import Ledger
from boxwright.problems import Refused
from tests.ledger.happenings import event


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    with Ledger(tmp_path / "ledger.db") as made:
        made.begin("s-one", "tide-mill", {"e1": {"codes": {"a": ["1"]}}}, event(kind="opened"))
        yield made


def test_events_come_back_as_they_were_numbered_from_1(ledger: Ledger) -> None:
    sent = [event(text="ä ✂ 'quoted'", deep={"list": [1, None, True]}) for _ in range(3)]
    kept = [ledger.append(one) for one in sent]
    assert kept == [replace(one, seq=seq) for seq, one in enumerate(sent, start=2)]
    assert ledger.events("s-one")[1:] == tuple(kept)
    assert ledger.events("s-one", after=3) == tuple(kept[2:])


def test_the_same_id_is_kept_once_and_the_first_comes_back(ledger: Ledger) -> None:
    first = ledger.append(event(id="same-one-1", text="first"))
    again = ledger.append(event(id="same-one-1", text="second"))
    assert again == first
    assert len(ledger.events("s-one")) == 2


def test_the_same_id_in_another_session_gives_the_first_too(ledger: Ledger) -> None:
    first = ledger.append(event(id="same-one-1"))
    ledger.begin("s-two", "tide-mill", {}, event("s-two"))
    assert ledger.append(event("s-two", id="same-one-1")) == first


def test_each_session_counts_by_itself(ledger: Ledger) -> None:
    ledger.begin("s-two", "seed-store", {}, event("s-two"))
    assert ledger.append(event("s-one")).seq == 2
    assert ledger.append(event("s-two")).seq == 2


def test_an_event_of_no_session_is_refused_with_a_remedy(ledger: Ledger) -> None:
    with pytest.raises(Refused) as refused:
        ledger.append(event("s-none"))
    assert [one.code for one in refused.value.problems] == ["ledger.no-session"]


def test_a_session_begins_whole_or_not_at_all(ledger: Ledger) -> None:
    class HaltedError(Exception):
        pass

    class Broken(dict[str, object]):
        def items(self) -> object:  # type: ignore[override]
            raise HaltedError

    with pytest.raises(HaltedError):
        ledger.begin("s-two", "tide-mill", Broken(), event("s-two"))
    assert [one.id for one in ledger.sessions()] == ["s-one"]


def test_editions_are_kept_with_their_session(ledger: Ledger) -> None:
    assert ledger.editions("s-one") == {"e1": {"codes": {"a": ["1"]}}}
    assert ledger.editions("s-two") == {}


def test_sessions_are_listed_newest_first_with_what_they_hold(ledger: Ledger) -> None:
    ledger.begin("s-two", "seed-store", {}, event("s-two"))
    ledger.append(event("s-one", "session.closed"))
    ledger.append(event("s-two", "undone"))
    two, one = ledger.sessions()
    first = ledger.events("s-one")[0]
    assert (two.id, two.game, two.events) == ("s-two", "seed-store", 2)
    assert (one.id, one.game, one.events, one.opened) == ("s-one", "tide-mill", 2, first.wall)
    assert ledger.sessions("tide-mill") == (one,)
    assert ledger.sessions("none") == ()


def test_it_is_there_when_the_file_is_opened_again(tmp_path: Path, ledger: Ledger) -> None:
    ledger.append(event(text="kept"))
    with Ledger(tmp_path / "ledger.db") as again:
        assert again.events("s-one") == ledger.events("s-one")


def test_threads_that_write_at_once_get_numbers_without_gaps(ledger: Ledger) -> None:
    threads = [
        threading.Thread(target=lambda: [ledger.append(event()) for _ in range(10)])
        for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [one.seq for one in ledger.events("s-one")] == list(range(1, 42))


def test_what_is_written_is_synced_to_the_disk(ledger: Ledger) -> None:
    wanted = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "secure_delete": 1}
    found = ledger.reading(
        lambda connection: {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in wanted
        }
    )
    assert found == wanted
