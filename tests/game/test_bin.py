"""A game in the bin is out of the way, whole, and can be brought back."""

from __future__ import annotations

from pathlib import Path

from boxwright.game.bin import BIN, bring_back, in_bin, to_bin
from boxwright.problems import Problem


def game(games: Path, name: str, text: str = "") -> Path:
    (games / name / "editions").mkdir(parents=True)
    (games / name / "game.toml").write_text(text, encoding="utf-8")
    (games / name / "editions" / "one.json").write_text("{}", encoding="utf-8")
    return games / name


def test_all_of_it_goes_and_comes_back(tmp_path: Path) -> None:
    folder = game(tmp_path, "mill", "mine")
    assert to_bin(tmp_path, "mill") is None
    assert not folder.exists()
    assert in_bin(tmp_path) == ("mill",)
    assert bring_back(tmp_path, "mill") is None
    assert (folder / "game.toml").read_text(encoding="utf-8") == "mine"
    assert (folder / "editions" / "one.json").is_file()
    assert in_bin(tmp_path) == ()


def test_two_of_one_name_lie_in_the_bin_beside_each_other(tmp_path: Path) -> None:
    for text in ("first", "second"):
        game(tmp_path, "mill", text)
        to_bin(tmp_path, "mill")
    assert in_bin(tmp_path) == ("mill", "mill-2")
    game(tmp_path, "mill", "third")
    bring_back(tmp_path, "mill")
    assert (tmp_path / "mill" / "game.toml").read_text(encoding="utf-8") == "third"
    assert (tmp_path / "mill-2" / "game.toml").read_text(encoding="utf-8") == "first"


def test_what_cannot_be_moved_is_told_and_stays(tmp_path: Path) -> None:
    folder = game(tmp_path, "mill")
    (tmp_path / BIN).write_text("in the way", encoding="utf-8")
    found = to_bin(tmp_path, "mill")
    assert isinstance(found, Problem)
    assert found.code == "edit.unwritable"
    assert folder.is_dir()
