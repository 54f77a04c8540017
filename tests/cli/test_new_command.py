"""`boxwright new`: what a teacher types, and what is answered."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.cli import main


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as done:
        main(list(arguments))
    assert isinstance(done.value.code, int)
    return done.value.code


def test_it_writes_a_game_and_says_what_comes_next(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "my game"
    assert run("new", str(folder), "--title", "Our Game", "--ages", "7-9") == 0
    text = (folder / "game.toml").read_text(encoding="utf-8")
    assert 'title = "Our Game"' in text
    assert "ages = [7, 9]" in text
    told = capsys.readouterr()
    assert told.out == ""
    assert "boxwright check" in told.err


@pytest.mark.parametrize(
    ("ages", "pair"), [("9", "[9, 9]"), ("9–11", "[9, 11]"), (" 9 - 11 ", "[9, 11]")]
)
def test_ages_as_people_write_them(tmp_path: Path, ages: str, pair: str) -> None:
    assert run("new", str(tmp_path / "a"), "--ages", ages) == 0
    assert f"ages = {pair}" in (tmp_path / "a" / "game.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize("ages", ["nine", "9-11-13", "", "-3", "11-9"])
def test_ages_that_are_none_are_told(
    tmp_path: Path, ages: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("new", str(tmp_path / "a"), f"--ages={ages}") == 2
    assert "--ages 9-11" in capsys.readouterr().err
    assert not (tmp_path / "a").exists()


def test_a_folder_with_something_in_it_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine.txt").write_text("x")
    assert run("new", str(tmp_path)) == 2
    assert "mine.txt" in capsys.readouterr().err
