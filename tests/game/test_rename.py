"""An id is renamed wherever it is used, and nowhere else."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from boxwright.game.draft import SECTIONS
from boxwright.game.folder import Folder, read_game
from boxwright.game.rename import Change, rename
from boxwright.problems import Problem

Changed = Callable[..., Path]
IDS = ["trunk", "safe", "pouch", "count", "wind", "hatch", "latch", "brass-key", "torch",
       "recipe", "workers", "mill-words", "sheaves", "find-key"]  # fmt: skip


def text(folder: Path) -> str:
    return (folder / "game.toml").read_bytes().decode()


def codes(outcome: tuple[Change, ...] | tuple[Problem, ...]) -> list[str]:
    return [one.code for one in outcome if isinstance(one, Problem)]


def test_the_ids_tried_here_are_all_there_are(sample: Path) -> None:
    folder = read_game(sample)
    assert isinstance(folder, Folder)
    assert [id for section in SECTIONS for id in getattr(folder.game, section)] == IDS


@pytest.mark.parametrize("id", IDS)
def test_after_renaming_the_game_is_as_sound_as_before(sample: Path, id: str) -> None:
    before = read_game(sample)
    assert isinstance(before, Folder)
    assert codes(rename(sample, id, "other-thing")) == []
    after = read_game(sample)
    assert isinstance(after, Folder)
    assert repr(after.game).replace("other-thing", id) == repr(before.game)


@pytest.mark.parametrize("id", IDS)
def test_renaming_back_gives_the_very_same_file(sample: Path, id: str) -> None:
    before = text(sample)
    rename(sample, id, "other-thing")
    assert text(sample) != before
    rename(sample, "other-thing", id)
    assert text(sample) == before


def test_remarks_and_words_that_only_look_alike_stay(sample: Path) -> None:
    rename(sample, "trunk", "chest")
    assert "# {trunk} in a remark stays" in text(sample)
    assert 'name = "the mill trunk"' in text(sample)
    assert '"The recipe lies in {chest}."' in text(sample)


def test_each_changed_line_is_shown(sample: Path) -> None:
    outcome = rename(sample, "pouch", "bag")
    shown = [one.after for one in outcome if isinstance(one, Change)]
    assert "[boxes.bag]" in shown
    assert 'adds = ["bag", "torch"]' in shown
    assert 'moves = { wind = "bag" }' in shown
    assert len(shown) == 5


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("trnk", "chest", "no-such-id-but"),
        ("zzz", "chest", "no-such-id"),
        ("trunk", "Chest", "bad-id"),
        ("trunk", "", "bad-id"),
        ("trunk", "table", "reserved"),
        ("trunk", "trunk", "same"),
        ("trunk", "hatch", "taken"),
        ("trunk", "shelf", "taken-by-room"),
    ],
)
def test_what_would_clash_is_refused(sample: Path, old: str, new: str, code: str) -> None:
    before = text(sample)
    assert codes(rename(sample, old, new)) == [f"rename.{code}"]
    assert text(sample) == before


def test_an_id_in_backslash_codes_is_refused_not_half_renamed(changed: Changed) -> None:
    folder = changed(('closes = "safe"', 'closes = "saf\\u0065"'))
    before = text(folder)
    assert codes(rename(folder, "safe", "vault")) == ["rename.by-hand"]
    assert text(folder) == before


def test_quoted_keys_and_windows_line_ends_are_renamed_too(changed: Changed) -> None:
    folder = changed(("[boxes.safe]", '[ boxes . "safe" ]'))
    path = folder / "game.toml"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert codes(rename(folder, "safe", "vault")) == []
    assert "[ boxes . vault ]\r\n" in text(folder)


def test_a_game_with_faults_can_be_renamed(changed: Changed) -> None:
    folder = changed(("ages = [9, 11]", "ages = [11, 9]"))
    assert codes(rename(folder, "trunk", "chest")) == []


def test_the_faults_of_a_thing_go_with_its_new_id(changed: Changed) -> None:
    folder = changed(("inside_mm = [300, 200, 120]", "inside_mm = 3"))
    assert codes(rename(folder, "trunk", "chest")) == []
    assert "[boxes.chest]" in text(folder)


def test_a_file_that_is_no_toml_is_told(sample: Path) -> None:
    (sample / "game.toml").write_text("= 1")
    assert codes(rename(sample, "trunk", "chest")) == ["folder.no-statement"]


def test_an_absent_game_is_told(tmp_path: Path) -> None:
    assert codes(rename(tmp_path / "no", "trunk", "chest")) == ["folder.no-such-file"]


@pytest.mark.parametrize(("section", "other"), [("boxes", "locks"), ("items", "clues")])
def test_an_id_of_two_things_is_left_to_the_teacher(sample: Path, section: str, other: str) -> None:
    file = sample / "game.toml"
    ids = tomllib.loads(text(sample))
    one, two = next(iter(ids[section])), next(iter(ids[other]))
    twice = text(sample).replace(f"[{other}.{two}", f"[{other}.{one}")
    file.write_text(twice, encoding="utf-8")
    (problem,) = rename(sample, one, "other-thing")
    assert isinstance(problem, Problem)
    assert problem.code == "rename.two-things"
    things, lines_said = problem.what.args["things"], problem.remedy.args["lines"]
    assert isinstance(things, tuple)
    assert isinstance(lines_said, tuple)
    assert set(things) == {f"{section}.{one}", f"{other}.{one}"}
    lines = twice.splitlines()
    headed = [lines[line - 1] for line in lines_said if isinstance(line, int)]
    for thing in (f"{section}.{one}", f"{other}.{one}"):
        assert any(line.startswith((f"[{thing}]", f"[{thing}.")) for line in headed)
    assert text(sample) == twice
