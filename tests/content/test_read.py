"""What a table is follows from its first row, or from what the clue calls it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from boxwright.content.read import KNOWN, content_faults, content_of, read_content
from boxwright.content.tables import Content
from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged
from boxwright.game.folder import Folder, read_game
from boxwright.game.start import start
from boxwright.messages import words
from boxwright.problems import Problem, Where

HERE = Where("game.toml", ("clues", "a", "versions", "v", "content"), 9, 1)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "content").mkdir()
    return tmp_path


def read(
    folder: Path, content: str | Mapping[str, str] | None, **files: str
) -> Content | tuple[Problem, ...]:
    for name, text in files.items():
        (folder / "content" / f"{name}.csv").write_text(text, encoding="utf-8")
    return read_content(folder, content, HERE)


@pytest.mark.parametrize("kind", sorted(KNOWN))
def test_a_table_is_known_by_its_first_row(folder: Path, kind: str) -> None:
    found = read(folder, "t.csv", t=",".join((*KNOWN[kind], "goal", "level")) + "\n")
    assert isinstance(found, Content)
    assert list(found.tables) == [kind]


def test_no_content_is_no_tables(folder: Path) -> None:
    assert read(folder, None) == Content()


def test_several_tables_come_by_what_they_are_called(folder: Path) -> None:
    found = read(folder, {"terms": "a.csv", "mine": "b.csv"}, a="term,meaning\n", b="x,y\n")
    assert isinstance(found, Content)
    assert found.tables["mine"].columns == ("x", "y")


@pytest.mark.parametrize(
    ("content", "text", "code"),
    [
        ("t.csv", "colour,taste\n", "content.unknown-table"),
        ({"terms": "t.csv"}, "term,colour\n", "content.no-column"),
        ("t.csv", "questions,right,wrong1\n", "content.no-column-but"),
        ({"terms": "t.csv"}, "term,meanin\n", "content.no-column-but"),
        ("zzzzzz", "", "folder.no-such-file"),
        ("../t.csv", "", "folder.outside"),
    ],
)
def test_what_is_wrong_is_told(
    folder: Path, content: str | dict[str, str], text: str, code: str
) -> None:
    found = read(folder, content, t=text or "x\n")
    assert isinstance(found, tuple)
    assert [one.code for one in found] == [code]


def test_the_known_first_rows_are_printed(folder: Path) -> None:
    found = read(folder, "t.csv", t="colour,taste\n")
    assert isinstance(found, tuple)
    assert "question,right" in words(found[0].remedy)


def test_another_sort_of_file_is_told(folder: Path) -> None:
    (folder / "content" / "t.xlsx").write_bytes(b"PK")
    found = read(folder, "t.xlsx")
    assert isinstance(found, tuple)
    assert found[0].code == "content.no-csv"


def game_with_content(folder: Path, table: str) -> Path:
    start(folder)
    path = folder / "game.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('kind = "nonogram"', 'kind = "nonogram"\ncontent = "t.csv"', 1))
    (folder / "content" / "t.csv").write_text(table, encoding="utf-8")
    return folder


def test_faults_of_tables_come_with_those_of_the_game(tmp_path: Path) -> None:
    folder = game_with_content(tmp_path / "new", "term,meaning\na,b,c\n")
    outcome = read_game(folder, also=[content_faults])
    assert not isinstance(outcome, Folder)
    assert [(one.where.file, one.where.line) for one in outcome] == [("content/t.csv", 2)]


def test_an_absent_table_is_told_once(tmp_path: Path) -> None:
    folder = game_with_content(tmp_path / "new", "term,meaning\n")
    (folder / "content" / "t.csv").unlink()
    outcome = read_game(folder, also=[content_faults])
    assert not isinstance(outcome, Folder)
    assert [one.code for one in outcome] == ["folder.no-such-file"]


def test_a_clue_in_play_gets_its_tables(tmp_path: Path) -> None:
    folder = read_game(game_with_content(tmp_path / "new", "term,meaning\na,b\n"))
    assert isinstance(folder, Folder)
    arranged = arrange(folder)
    assert isinstance(arranged, Arranged)
    found = content_of(folder, arranged.of("1").clues["spring-plan"])
    assert isinstance(found, Content)
    assert found.tables["terms"].rows == ({"term": "a", "meaning": "b"},)
