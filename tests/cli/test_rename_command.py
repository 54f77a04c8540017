"""`boxwright rename`: each changed line is shown; a clash changes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.cli import main
from boxwright.game.start import start


@pytest.fixture
def game(tmp_path: Path) -> Path:
    start(tmp_path / "game")
    return tmp_path / "game"


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as done:
        main(list(arguments))
    assert isinstance(done.value.code, int)
    return done.value.code


def test_changed_lines_go_to_stdout_and_the_sum_to_stderr(
    game: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("rename", str(game), "crate", "chest") == 0
    told = capsys.readouterr()
    assert "[boxes.chest]" in told.out
    assert f"{len(told.out.splitlines())} lines changed" in told.err


def test_a_clash_is_told_and_changes_nothing(
    game: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = (game / "game.toml").read_bytes()
    assert run("rename", str(game), "crate", "tin") == 2
    assert "Nothing was changed" in capsys.readouterr().err
    assert (game / "game.toml").read_bytes() == before


def test_a_folder_without_a_game_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("rename", str(tmp_path), "crate", "chest") == 2
    assert "boxwright new" in capsys.readouterr().err
