"""The tables of a folder as they lie there, sound or not, and who uses them."""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from boxwright.content.listing import first_row, table_of, tables_of
from boxwright.content.read import KNOWN, sort_of
from tests.games import EXAMPLES


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(EXAMPLES / "tide-mill", tmp_path / "game"))


@pytest.fixture
def game(folder: Path) -> dict[str, Any]:
    return tomllib.loads((folder / "game.toml").read_text(encoding="utf-8"))


def test_each_table_is_told_with_what_it_is_and_who_uses_it(
    folder: Path, game: dict[str, Any]
) -> None:
    found = [(one.name, one.sort, one.clues, one.problems) for one in tables_of(folder, game)]
    assert found == [
        ("floats.csv", "statements", ("float-or-sink",), ()),
        ("tides.csv", "questions", ("tide-book",), ()),
    ]


def test_a_bad_row_stands_beside_the_good_ones(folder: Path, game: dict[str, Any]) -> None:
    (folder / "content" / "floats.csv").write_text(
        "statement,true\ncork,true\nice,true,cold\n", encoding="utf-8"
    )
    table = table_of(folder, game, "floats.csv")
    assert table is not None
    assert table.grid is not None
    assert table.grid.rows == ((2, ("cork", "true")), (3, ("ice", "true", "cold")))
    assert [(one.code, one.where.line) for one in table.problems] == [("content.long-row", 3)]


def test_a_file_that_is_no_text_has_no_rows(folder: Path, game: dict[str, Any]) -> None:
    (folder / "content" / "tides.csv").write_bytes("question,right\nFluß,Meer\n".encode("latin-1"))
    table = table_of(folder, game, "tides.csv")
    assert table is not None
    assert table.grid is None
    assert [one.code for one in table.problems] == ["folder.not-utf-8"]


@pytest.mark.parametrize("name", ["no.csv", "../game.toml", "notes.txt", ".hidden.csv"])
def test_other_names_are_no_tables(folder: Path, game: dict[str, Any], name: str) -> None:
    (folder / "content" / "notes.txt").write_text("x", encoding="utf-8")
    assert table_of(folder, game, name) is None


@pytest.mark.parametrize("clues", [[], {"a": 1}, {"a": {"versions": [1]}}, {"a": {"versions": {}}}])
def test_a_game_that_is_all_wrong_has_tables_too(folder: Path, clues: Any) -> None:
    assert [one.clues for one in tables_of(folder, {"clues": clues})] == [(), ()]


def test_a_new_table_is_what_it_was_begun_as() -> None:
    assert {sort: sort_of(first_row(sort)) for sort in KNOWN} == {sort: sort for sort in KNOWN}
