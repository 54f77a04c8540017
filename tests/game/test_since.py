"""What changed since a state that somebody knows: which files, and which of their lines."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.game.history import History
from boxwright.game.since import MOST_LINES, Line, changed_since
from boxwright.problems import say

WHAT = say("edit.no-tag")


@pytest.fixture
def history(tmp_path: Path) -> History:
    (tmp_path / "game.toml").write_text("a\nb\nc\nd\ne\n", encoding="utf-8")
    return History(tmp_path)


def put(history: History, **files: bytes | None) -> str:
    named = {name.replace("_", "."): data for name, data in files.items()}
    return history.change(history.now().tag, WHAT, named).tag


def test_nothing_changed_between_a_state_and_itself(history: History) -> None:
    assert changed_since(history, history.now().tag) == ()


def test_lines_are_told_as_they_were_and_as_they_are(history: History) -> None:
    tag = history.now().tag
    put(history, game_toml=b"a\nb\nC\nd\ne\n")
    found = changed_since(history, tag)
    assert found is not None
    assert [(one.name, one.sort) for one in found] == [("game.toml", "changed")]
    assert found[0].lines == (
        Line("same", "b"), Line("gone", "c"), Line("new", "C"), Line("same", "d"),
    )  # fmt: skip


def test_several_changes_add_up_and_one_that_was_undone_is_none(history: History) -> None:
    tag = history.now().tag
    put(history, game_toml=b"a\n")
    put(history, kit_toml=b"k\n")
    history.undo(history.now().tag)
    found = changed_since(history, tag)
    assert found is not None
    assert [one.name for one in found] == ["game.toml"]


def test_a_state_that_can_be_made_again_is_known_too(history: History) -> None:
    later = put(history, game_toml=None)
    history.undo(history.now().tag)
    found = changed_since(history, later)
    assert found is not None
    assert [(one.name, one.sort) for one in found] == [("game.toml", "new")]


def test_what_another_program_changed_is_told_as_well(history: History) -> None:
    tag = history.now().tag
    (history.folder / "room.toml").write_text("r\n", encoding="utf-8")
    found = changed_since(history, tag)
    assert found is not None
    assert [(one.name, one.sort) for one in found] == [("room.toml", "new")]


def test_a_file_that_is_no_text_is_named_only(history: History) -> None:
    tag = history.now().tag
    put(history, kit_toml=b"\xff\xfe\x00")
    found = changed_since(history, tag)
    assert found is not None
    assert [(one.name, one.lines) for one in found] == [("kit.toml", ())]


def test_a_long_change_is_cut(history: History) -> None:
    tag = history.now().tag
    put(history, game_toml=b"\n".join(b"%d" % n for n in range(500)))
    found = changed_since(history, tag)
    assert found is not None
    assert len(found[0].lines) == MOST_LINES + 1
    assert found[0].lines[-1].sort == "cut"


def test_a_state_that_nobody_knows_cannot_be_compared(history: History) -> None:
    assert changed_since(history, "nowhere") is None
