"""Changes keep what a teacher wrote, and come whole or not at all."""

from __future__ import annotations

import os
import stat
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.folder import Folder, read_game
from boxwright.game.text_edit import changed as changed_text
from boxwright.game.text_edit import meant
from boxwright.game.write import edit
from boxwright.problems import Edit

Changed = Callable[..., Path]
GAME = "game.toml"


def raw(folder: Path) -> bytes:
    return (folder / GAME).read_bytes()


def data(folder: Path) -> dict[str, Any]:
    return tomllib.loads(raw(folder).decode("utf-8-sig").replace("\r\n", "\n"))


def test_a_value_is_replaced_and_nothing_else(sample: Path) -> None:
    before = raw(sample)
    assert edit(sample, [Edit(GAME, ("time", "bell_to_bell"), 50)]) == ()
    assert raw(sample) == before.replace(b"bell_to_bell = 45", b"bell_to_bell = 50")


def test_a_value_deep_in_lists_and_tables_is_replaced_in_place(sample: Path) -> None:
    before = raw(sample)
    path = ("story", "opening", 1, "text")
    assert edit(sample, [Edit(GAME, path, 'Say "hello", {trunk}.')]) == ()
    assert data(sample)["story"]["opening"][1]["text"] == 'Say "hello", {trunk}.'
    assert before.count(b"#") == raw(sample).count(b"#")


def test_a_new_key_is_added_to_its_table(sample: Path) -> None:
    assert edit(sample, [Edit(GAME, ("time", "settle"), 3)]) == ()
    assert data(sample)["time"] == {"bell_to_bell": 45, "settle": 3}
    assert b"# a remark that must survive" in raw(sample)


def test_a_whole_table_can_be_added(sample: Path) -> None:
    value = {"name": "a tin", "place": ["shelf", "table"], "inside_mm": (1, 2.5, 3)}
    assert edit(sample, [Edit(GAME, ("boxes", "tin"), value)]) == ()
    assert data(sample)["boxes"]["tin"]["inside_mm"] == [1, 2.5, 3]


def test_a_key_is_removed(sample: Path) -> None:
    assert edit(sample, [Edit(GAME, ("game", "licence"))]) == ()
    assert "licence" not in data(sample)["game"]


def test_a_key_is_renamed_wherever_it_is_written(changed: Changed) -> None:
    folder = changed(("[arrangements.short]", "[arrangements.brief]"))
    assert edit(folder, [Edit(GAME, ("arrangements", "brief"), key="quick")]) == ()
    assert b"[arrangements.quick]" in raw(folder)


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("value", [50, None])
def test_line_ends_and_the_mark_are_kept(
    sample: Path, newline: str, mark: bytes, value: int | None
) -> None:
    text = raw(sample).decode()
    (sample / GAME).write_bytes(mark + text.replace("\n", newline).encode())
    path = ("time", "bell_to_bell") if value else ("game", "licence")
    assert edit(sample, [Edit(GAME, path, value)]) == ()
    written = raw(sample)
    assert written.startswith(mark)
    assert written.count(b"\xef\xbb\xbf") == bool(mark)
    assert (b"\r\n" in written) == (newline == "\r\n")
    assert written.count(b"\n") == written.count(newline.encode())


def test_permissions_are_kept(sample: Path) -> None:
    (sample / GAME).chmod(0o640)
    assert edit(sample, [Edit(GAME, ("time", "bell_to_bell"), 50)]) == ()
    assert stat.S_IMODE((sample / GAME).stat().st_mode) == 0o640


def test_no_file_is_left_behind(sample: Path) -> None:
    names = sorted(one.name for one in sample.iterdir())
    edit(sample, [Edit(GAME, ("time", "bell_to_bell"), 50)])
    assert sorted(one.name for one in sample.iterdir()) == names


def test_several_files_change_together(sample: Path) -> None:
    edits = [Edit(GAME, ("game", "title"), "New"), Edit("room.toml", ("room", "name"), "Hall")]
    assert edit(sample, edits) == ()
    folder = read_game(sample)
    assert isinstance(folder, Folder)
    assert (folder.game.game.title, folder.room and folder.room.room.name) == ("New", "Hall")


def test_what_makes_the_game_worse_is_not_written(sample: Path) -> None:
    before = raw(sample)
    (problem,) = edit(sample, [Edit(GAME, ("locks", "count", "closes"), "trnk")])
    assert problem.code == "game.unknown-name-but"
    assert raw(sample) == before


def test_one_fault_can_be_mended_while_others_remain(changed: Changed) -> None:
    folder = changed(("ages = [9, 11]", "ages = [11, 9]"), ('closes = "trunk"', 'closes = "trnk"'))
    assert edit(folder, [Edit(GAME, ("game", "ages"), (9, 11))]) == ()
    outcome = read_game(folder)
    assert not isinstance(outcome, Folder)
    assert [one.code for one in outcome] == ["game.unknown-name-but"]


@pytest.mark.parametrize(
    "one",
    [
        Edit(GAME, (), 1),
        Edit(GAME, ("boxes", "none", "name"), "x"),
        Edit(GAME, ("boxes", "none")),
        Edit(GAME, ("game", "ages", 7), 9),
        Edit(GAME, ("game", "title"), key="summary"),
        Edit(GAME, ("game", "title", "x"), 1),
    ],
)
def test_a_path_that_is_not_there_is_told(sample: Path, one: Edit) -> None:
    before = raw(sample)
    assert [problem.code for problem in edit(sample, [one])] == ["edit.no-such-path"]
    assert raw(sample) == before


def test_only_files_of_the_game_are_changed(sample: Path) -> None:
    (problem,) = edit(sample, [Edit("../other.toml", ("a",), 1)])
    assert problem.code == "edit.no-such-file"


@pytest.mark.parametrize("value", ["\ud800", [None], object()])
def test_a_value_that_toml_cannot_hold_is_told(sample: Path, value: object) -> None:
    before = raw(sample)
    (problem,) = edit(sample, [Edit(GAME, ("game", "summary"), value)])
    assert problem.code == "edit.by-hand"
    assert raw(sample) == before


def test_a_crash_while_writing_leaves_the_old_file(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = raw(sample)

    def fails(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fails)
    (problem,) = edit(sample, [Edit(GAME, ("time", "bell_to_bell"), 50)])
    assert problem.code == "edit.unwritable"
    assert raw(sample) == before
    assert not [one for one in sample.iterdir() if one.name.startswith(".game")]


VALUES = st.recursive(
    st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False)
    | st.text(st.characters(codec="utf-8"), max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(st.characters(codec="utf-8"), max_size=4), inner, max_size=3)
    ),
    max_leaves=6,
)
TEXT = """# top
a = 1  # one
b.c = "x"
[t]  # table
d = [1, {e = 2}]
"q r" = '''
long'''
[[u]]
v = 1
[[u]]
v = 2
"""
PATHS = st.sampled_from(
    [("a",), ("b", "c"), ("t", "d", 1, "e"), ("t", "q r"), ("u", 1, "v"), ("t", "new"), ("new",)]
)


@given(PATHS, VALUES)
def test_any_value_set_anywhere_reads_back_as_meant(path: tuple[Any, ...], value: Any) -> None:
    one = Edit(GAME, path, value)
    after = changed_text(TEXT, one)
    assert tomllib.loads(after) == meant(tomllib.loads(TEXT), one)
    assert after.count("# ") == 3 or "# " in str(value)


@given(PATHS, st.text(st.characters(codec="utf-8"), max_size=6))
def test_any_key_renamed_reads_back_as_meant(path: tuple[Any, ...], key: str) -> None:
    data = tomllib.loads(TEXT)
    node: Any = data
    for step in path[:-1]:
        node = node[step]
    if path[-1] in node and key not in node:
        assert tomllib.loads(changed_text(TEXT, Edit(GAME, path, key=key))) == meant(
            data, Edit(GAME, path, key=key)
        )
