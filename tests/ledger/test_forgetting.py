"""A session that is forgotten leaves nothing in the ledger's files, not even a name."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from boxwright.ledger.store import Ledger
from boxwright.problems import Refused
from tests.ledger.happenings import event

NAME = "Quokkas by the window"


def bytes_of(folder: Path) -> bytes:
    """Return all bytes of all files of a ledger."""
    return b"".join(file.read_bytes() for file in sorted(folder.iterdir()))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "only"
    made.mkdir()
    return made


def filled(folder: Path) -> Ledger:
    """Return a ledger with two sessions, one of which names a group over many pages."""
    ledger = Ledger(folder / "ledger.db", wait_ms=1)
    ledger.begin("s-one", "g", {"e": {"told": NAME}}, event(name=NAME))
    ledger.begin("s-two", "g", {}, event("s-two", text="stays"))
    for _ in range(60):
        ledger.append(event(text=f"{NAME} {'x' * 200}"))
    return ledger


def test_a_name_is_gone_from_every_file_while_the_ledger_is_open(folder: Path) -> None:
    with filled(folder) as ledger:
        assert NAME.encode() in bytes_of(folder)
        ledger.forget("s-one")
        assert NAME.encode() not in bytes_of(folder)
        assert ledger.events("s-one") == ()
        assert ledger.editions("s-one") == {}
        assert [one.id for one in ledger.sessions()] == ["s-two"]
    assert NAME.encode() not in bytes_of(folder)


def test_other_sessions_stay(folder: Path) -> None:
    with filled(folder) as ledger:
        kept = ledger.events("s-two")
        ledger.forget("s-one")
        assert ledger.events("s-two") == kept
        assert ledger.append(event("s-two")).seq == 2


def test_a_reader_that_holds_on_is_told_and_a_second_try_cleans_up(folder: Path) -> None:
    with filled(folder) as ledger:
        other = sqlite3.connect(folder / "ledger.db", isolation_level=None)
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM events").fetchone()
        with pytest.raises(Refused) as caught:
            ledger.forget("s-one")
        assert caught.value.problems[0].code == "ledger.traces"
        assert ledger.events("s-one") == ()
        other.close()
        ledger.forget("s-one")
        assert NAME.encode() not in bytes_of(folder)


def test_forgetting_what_is_not_there_does_no_harm(folder: Path) -> None:
    with filled(folder) as ledger:
        ledger.forget("s-none")
        assert len(ledger.sessions()) == 2
