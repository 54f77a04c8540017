"""What an earlier print of a game left in a folder goes; what is somebody else's stays."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from boxwright.paper.earlier import LIST, Put, put

MILL = {"mill-sheets.pdf": b"1", "mill-key.pdf": b"2", "mill-hints.pdf": b"3"}


@pytest.fixture
def out(tmp_path: Path) -> Path:
    put(tmp_path, "mill", MILL, ["one"], whole=True)
    return tmp_path


def names(folder: Path) -> set[str]:
    return {one.name for one in folder.iterdir()} - {LIST}


def test_what_is_no_longer_made_goes(out: Path) -> None:
    found = put(out, "mill", {"mill-key.pdf": b"9"}, ["two"], whole=True)
    assert found == Put(removed=("mill-hints.pdf", "mill-sheets.pdf"))
    assert names(out) == {"mill-key.pdf"}


def test_a_file_that_was_never_printed_here_stays(out: Path) -> None:
    (out / "mill-notes.pdf").write_bytes(b"mine")
    found = put(out, "mill", {"mill-key.pdf": b"9"}, ["two"], whole=True)
    assert "mill-notes.pdf" not in found.removed
    assert (out / "mill-notes.pdf").read_bytes() == b"mine"


def test_a_file_that_was_changed_since_stays_and_is_told(out: Path) -> None:
    (out / "mill-hints.pdf").write_bytes(b"with my remarks")
    found = put(out, "mill", {"mill-key.pdf": b"9"}, ["two"], whole=True)
    assert found == Put(removed=("mill-sheets.pdf",), own=("mill-hints.pdf",))
    assert (out / "mill-hints.pdf").read_bytes() == b"with my remarks"


def test_another_games_print_outs_stay(out: Path) -> None:
    put(out, "pond", {"pond-key.pdf": b"5"}, ["three"], whole=True)
    assert names(out) == {*MILL, "pond-key.pdf"}
    put(out, "mill", {}, ["two"], whole=True)
    assert names(out) == {"pond-key.pdf"}


def test_one_sheet_alone_removes_nothing_and_older_ones_are_told(out: Path) -> None:
    found = put(out, "mill", {"mill-bell.pdf": b"4"}, ["two"], whole=False)
    assert found == Put(older=tuple(sorted(MILL)))
    assert names(out) == {*MILL, "mill-bell.pdf"}


def test_one_sheet_alone_of_the_same_set_says_nothing(out: Path) -> None:
    assert put(out, "mill", {"mill-bell.pdf": b"4"}, ["one"], whole=False) == Put()


def test_a_sheet_printed_alone_goes_with_the_next_whole_set(out: Path) -> None:
    put(out, "mill", {"mill-bell.pdf": b"4"}, ["one"], whole=False)
    assert put(out, "mill", MILL, ["one"], whole=True) == Put(removed=("mill-bell.pdf",))


@pytest.mark.parametrize("text", ["", "{", "[]", '{"mill": {"mill-key.pdf": 3}}', '{"mill": 1}'])
def test_a_damaged_list_removes_nothing(out: Path, text: str) -> None:
    (out / LIST).write_text(text, encoding="utf-8")
    assert put(out, "mill", {"mill-key.pdf": b"9"}, ["two"], whole=True) == Put()
    assert names(out) == set(MILL)


def test_a_list_that_names_files_elsewhere_removes_none(out: Path) -> None:
    outside = out.parent / "outside.pdf"
    outside.write_bytes(b"1")
    listed = json.loads((out / LIST).read_text(encoding="utf-8"))
    listed["mill"]["../outside.pdf"] = listed["mill"].pop("mill-sheets.pdf")
    (out / LIST).write_text(json.dumps(listed), encoding="utf-8")
    found = put(out, "mill", {}, ["two"], whole=True)
    assert found == Put(removed=("mill-hints.pdf", "mill-key.pdf"))
    assert outside.read_bytes() == b"1"


def test_after_one_sheet_alone_the_whole_set_is_still_on_the_list(out: Path) -> None:
    put(out, "mill", {"mill-bell.pdf": b"4"}, ["one"], whole=False)
    found = put(out, "mill", {"mill-key.pdf": b"9"}, ["two"], whole=True)
    assert found == Put(removed=("mill-bell.pdf", "mill-hints.pdf", "mill-sheets.pdf"))
