"""`boxwright make`: where it writes, what it draws on, and what stands on top."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from boxwright.messages import words
from boxwright.problems import say
from boxwright.puzzles.shelf import names
from tests.cli.conftest import Run

TABLES = Path(__file__).parent.parent / "puzzles" / "tables"
MAKE = ("make", "nonogram", "--lock", "number-wheels:3", "--code", "427")


def text_of(file: Path) -> str:
    """Return the words of a PDF's first page."""
    return str(pypdfium2.PdfDocument(file)[0].get_textpage().get_text_bounded())


@pytest.mark.parametrize("ending", ["pdf", "json"])
def test_a_missing_folder_is_made(run: Run, tmp_path: Path, ending: str) -> None:
    out = tmp_path / "a" / "b" / f"sheet.{ending}"
    assert run(*MAKE, "--out", out).code == 0
    assert out.is_file()


def test_a_folder_in_the_place_of_the_file_is_told(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    out.mkdir()
    assert run(*MAKE, "--out", out).refused(str(out))


def test_a_file_in_the_place_of_the_folder_is_told(run: Run, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    assert run(*MAKE, "--out", tmp_path / "out" / "sheet.pdf").refused("is a file")


@pytest.mark.parametrize(
    ("kind", "table", "more"),
    [
        ("quiz-index", "questions", ()),
        ("shade-by-rule", "statements", ()),
        ("logic-grid", "categories", ()),
    ],
)
def test_a_table_of_ones_own_gives_the_sheet_its_words(
    run: Run, kind: str, table: str, more: tuple[str, ...]
) -> None:
    file = TABLES / f"{table}.csv"
    shown = run("make", kind, "--code", "312", "--content", file, *more)
    assert shown.code == 0, shown.err
    cells = {
        cell for line in file.read_text(encoding="utf-8").splitlines() for cell in line.split(",")
    }
    sheet = json.dumps(shown.json["sheet"], ensure_ascii=False)
    assert sum(len(cell) > 3 and cell in sheet for cell in cells) > 3


@pytest.mark.parametrize("kind", ["quiz-index", "shade-by-rule"])
def test_a_puzzle_that_needs_a_table_says_how_to_name_one(run: Run, kind: str) -> None:
    assert run("make", kind, "--code", "427").refused("--content:", "--content ")


@pytest.mark.parametrize("kind", ["logic-grid", "nonogram"])
def test_a_puzzle_that_can_do_without_a_table_does(run: Run, kind: str) -> None:
    assert run("make", kind, "--code", "427").code == 0


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("q.txt", "question,right,wrong1\n", "--content FILE.csv"),
        ("q.csv", "a,b\n1,2\n", "q.csv:1"),
        ("q.csv", "question,right,wrong1\nWhy,,No\n", "q.csv:2"),
        ("q.csv", None, "q.csv"),
    ],
)
def test_a_table_that_will_not_do_is_told(
    run: Run, tmp_path: Path, name: str, text: str | None, said: str
) -> None:
    if text is not None:
        (tmp_path / name).write_text(text, encoding="utf-8")
    file = tmp_path / name
    assert run("make", "quiz-index", "--code", "1", "--content", file).refused(said)


@pytest.mark.parametrize("code", ["", "  "])
def test_an_empty_code_is_told(run: Run, code: str) -> None:
    assert run("make", "nonogram", "--code", code).refused("--code:", "no code")


def test_a_title_that_does_not_fit_is_told_with_the_file(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    assert run(*MAKE, "--title", "x" * 300, "--out", out).refused(f"{out}: ", "title")
    assert not out.exists()


def test_the_puzzles_own_title_stands_on_top(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    run(*MAKE, "--out", out)
    assert words(say("nonogram.title")) in text_of(out)
    run(*MAKE, "--out", out, "--title", "The Bell Rope")
    assert "The Bell Rope" in text_of(out)
    assert words(say("nonogram.title")) not in text_of(out)


@pytest.mark.parametrize("kind", names())
def test_every_puzzle_has_a_title(kind: str) -> None:
    assert words(say(f"{kind}.title")) != f"{kind}.title"


def test_a_language_without_words_is_told_and_the_sheet_still_made(
    run: Run, tmp_path: Path
) -> None:
    out = tmp_path / "sheet.pdf"
    shown = run(*MAKE, "--language", "de", "--out", out)
    assert shown.code == 0
    assert "English" in shown.err
    assert out.is_file()
    assert "English" not in run(*MAKE, "--language", "en-GB", "--out", out).err
