"""`boxwright locks` keeps the lock book: what was done, what is known, what to try."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.games import DEMO

KIT = """
format = 1
[kit]
id = "shelf"
name = "The shelf"
[locks.N1]
mechanism = "number-wheels"
wheels = 3
shelf_code = "000"
[locks.R1]
mechanism = "dial"
numbers = 40
fixed = true
code = "12-33-5"
[locks.K1]
mechanism = "key"
"""


@pytest.fixture
def locks(run: Any, tmp_path: Path) -> Any:
    """Run the command on a ledger of its own; `kit` adds the kit above."""
    file = tmp_path / "kit.toml"
    file.write_text(KIT, "utf-8")

    def call(*arguments: str | Path, kit: bool = True) -> Any:
        named = ("--kit", file) if kit else ()
        return run("locks", *arguments, *named, "--ledger", tmp_path / "ledger.db")

    return call


def test_an_empty_book_says_how_to_begin(locks: Any) -> None:
    found = locks(kit=False)
    assert found.code == 0
    assert "--set 427" in found.out


def test_a_lock_is_set_and_stands_in_the_list(locks: Any) -> None:
    assert "N1 is set to 427." in locks("n1", "--set", "4 2 7", "--for", "tide-mill").out
    line = next(line for line in locks(kit=False).out.splitlines() if line.startswith("N1"))
    assert "427" in line
    assert "tide-mill" in line


def test_a_kit_lists_all_its_locks_and_says_plainly_what_is_not_known(locks: Any) -> None:
    lines = {line.split()[0]: line for line in locks().out.splitlines()[1:]}
    assert "not known" in lines["N1"]
    assert "12-33-5" in lines["R1"]
    assert "key" in lines["K1"]


def test_a_game_folder_stands_for_its_kit(run: Any, tmp_path: Path) -> None:
    found = run("locks", "--kit", DEMO, "--ledger", tmp_path / "ledger.db", "--json")
    assert [one["tag"] for one in found.json["locks"]] == ["N1", "N2", "W1", "K1"]
    assert {one["code"] for one in found.json["locks"]} == {None}


def test_one_lock_tells_its_history(locks: Any) -> None:
    for act in (("--set", "427"), ("--checked",), ("--battery",), ("--set", "111")):
        assert locks("N1", *act).code == 0
    found = locks("N1", "--json", kit=False).json
    types = ["lock.set", "lock.checked", "lock.battery", "lock.set"]
    assert [one["type"] for one in found["history"]] == types
    assert (found["lock"]["code"], found["lock"]["checked"]) == ("111", None)
    assert "lost" not in found


def test_a_lost_lock_gets_a_list_that_begins_with_what_it_was_set_to(locks: Any) -> None:
    locks("N1", "--set", "555")
    locks("N1", "--set", "427")
    found = locks("N1", "--lost", "--json").json
    assert (found["lock"]["code"], found["lock"]["meant"]) == (None, "427")
    first = [(one["code"], one["stage"]) for one in found["lost"]["first"][:4]]
    assert first[:3] == [("427", "meant"), ("555", "earlier"), ("000", "earlier")]
    assert first[3][1] == "slipped"
    assert sum(stage["tries"] for stage in found["lost"]["stages"]) == 1000
    assert "555, 000" in locks("N1").out


def test_a_lost_lock_without_its_kit_says_that_the_kit_is_needed(locks: Any) -> None:
    locks("N1", "--set", "427")
    found = locks("N1", "--lost", kit=False)
    assert found.code == 0
    assert "--kit" in found.out


def test_a_code_that_was_found_ends_the_search(locks: Any) -> None:
    locks("N1", "--set", "427")
    locks("N1", "--lost")
    assert "N1 is set to 437." in locks("N1", "--found", "437").out


@pytest.mark.parametrize(
    ("arguments", "kit", "said"),
    [
        (("N1", "--set", "4x7"), True, "position 2"),
        (("N1", "--set", "4277"), True, "3 symbols"),
        (("N1", "--set", "427"), False, "--kit"),
        (("R1", "--set", "1-2-3"), True, "always opens with 12-33-5"),
        (("K1", "--set", "427"), True, "no code"),
        (("N9",), True, "N1"),
        (("N9",), False, "no lock N9"),
        (("--set", "427"), True, "which lock"),
        (("N1", "--set", "427", "--lost"), True, "One thing at a time"),
        (("N1", "--for", "tide-mill"), True, "--set"),
    ],
)
def test_what_cannot_be_is_told_and_not_written(
    locks: Any, arguments: tuple[str, ...], kit: bool, said: str
) -> None:
    assert locks(*arguments, kit=kit).refused(said)
    assert "--set 427" in locks(kit=False).out  # the book is still empty


def test_a_lock_that_cannot_be_set_keeps_its_code_whatever_is_noted_of_it(locks: Any) -> None:
    assert locks("R1", "--battery", "--json").json["lock"]["code"] == "12-33-5"
    assert locks("R1", "--checked", "--json").json["lock"]["code"] == "12-33-5"
    found = locks("R1", "--lost", "--json").json
    assert found["lock"]["code"] is None
    assert found["lost"]["first"][0]["code"] == "12-33-5"


def test_a_sticker_of_two_kits_asks_which(locks: Any, run: Any, tmp_path: Path) -> None:
    locks("N1", "--set", "427")
    other = tmp_path / "other.toml"
    other.write_text(KIT.replace('"shelf"', '"crate"'), "utf-8")
    run("locks", "N1", "--set", "111", "--kit", other, "--ledger", tmp_path / "ledger.db")
    assert locks("N1", kit=False).refused("several kits")
    assert "427" in locks("N1").out


def test_a_ledger_that_cannot_be_used_is_told(run: Any, tmp_path: Path) -> None:
    file = tmp_path / "ledger.db"
    file.write_text("just a text, and quite long enough to be looked at " * 20)
    assert run("locks", "--ledger", file).refused("cannot be read as a ledger")
