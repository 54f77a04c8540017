"""A whole folder is read as one value, and every file that cannot be read says why."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from boxwright.game.folder import Folder, read_game
from boxwright.messages import words
from boxwright.problems import Problem

SAMPLE = Path(__file__).with_name("sample")


def problems(folder: Path, **named: Path) -> tuple[Problem, ...]:
    found = read_game(folder, **named)  # type: ignore[arg-type]
    assert not isinstance(found, Folder)
    return found


def read(folder: Path) -> Folder:
    found = read_game(folder)
    assert isinstance(found, Folder), found
    return found


def test_a_sound_folder_is_one_value(sample: Path) -> None:
    folder = read(sample)
    assert folder.game.game.title == "The Paper Mill"
    assert folder.kit is not None
    assert folder.room is not None


def test_a_place_is_found_with_its_line_and_column(sample: Path) -> None:
    where = read(sample).where("game.toml", ("locks", "wind", "code"))
    line = (sample / "game.toml").read_text().split("\n")[where.line - 1]  # type: ignore[operator]
    assert line.startswith("code")
    assert where.column == 1


def test_an_unknown_path_stands_where_its_nearest_parent_does(sample: Path) -> None:
    folder = read(sample)
    near = folder.where("game.toml", ("locks", "wind"))
    deep = folder.where("game.toml", ("locks", "wind", "faces", 3))
    assert (deep.line, deep.column) == (near.line, near.column)
    assert deep.path == ("locks", "wind", "faces", 3)


@pytest.mark.parametrize("file", ["kit.toml", "room.toml"])
def test_a_kit_or_room_may_be_absent(sample: Path, file: str) -> None:
    (sample / file).unlink()
    assert isinstance(read_game(sample), Folder)


def test_a_kit_named_elsewhere_is_read_instead(sample: Path, tmp_path: Path) -> None:
    elsewhere = (sample / "kit.toml").rename(tmp_path / "other.toml")
    found = read_game(sample, kit=elsewhere)
    assert isinstance(found, Folder)
    assert found.kit is not None
    assert found.where("kit.toml", ("kit",)).file == str(elsewhere)


def test_a_kit_named_but_absent_is_told(sample: Path, tmp_path: Path) -> None:
    (one,) = problems(sample, kit=tmp_path / "none.toml")
    assert one.code == "folder.missing"


def test_an_absent_folder_is_told(tmp_path: Path) -> None:
    assert [one.code for one in problems(tmp_path / "no")] == ["folder.no-folder"]


def test_an_empty_folder_lacks_its_game_file(tmp_path: Path) -> None:
    (one,) = problems(tmp_path)
    assert (one.code, one.where.line) == ("folder.missing", None)


def test_a_folder_in_place_of_the_file_is_told(sample: Path) -> None:
    (sample / "room.toml").unlink()
    (sample / "room.toml").mkdir()
    assert problems(sample)[0].code.startswith("folder.")


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_marks_and_line_ends_of_any_editor_are_read(
    sample: Path, newline: str, mark: bytes
) -> None:
    path = sample / "game.toml"
    text = path.read_text(encoding="utf-8")
    path.write_bytes(mark + text.replace("\n", newline).encode())
    where = read(sample).where("game.toml", ("locks", "wind", "code"))
    assert text.split("\n")[(where.line or 0) - 1].startswith("code")


@pytest.mark.parametrize(
    ("encoding", "code"),
    [("utf-16", "folder.utf-16"), ("utf-16-le", "folder.utf-16"), ("cp1252", "folder.not-utf-8")],
)
def test_another_encoding_is_told_with_its_remedy(
    changed: Callable[..., Path], encoding: str, code: str
) -> None:
    folder = changed(("The Paper Mill", "Die Papiermühle"))
    path = folder / "game.toml"
    path.write_bytes(path.read_text(encoding="utf-8").encode(encoding))
    (one,) = problems(folder)
    assert one.code == code
    assert "UTF-8" in words(one.remedy)


def test_the_line_of_a_foreign_letter_is_named(changed: Callable[..., Path]) -> None:
    folder = changed(("The Paper Mill", "Mühle"))
    path = folder / "game.toml"
    path.write_bytes(path.read_text(encoding="utf-8").encode("cp1252"))
    (one,) = problems(folder)
    assert one.where.line == 6


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('id = "paper-mill"', 'id = "paper-mill', "open-text"),
        ('title = "The Paper Mill"', "title = The Paper Mill", "slip-bare"),
        ("ages = [9, 11]", "ages = [9, 11", "open-list"),
        ("[time]", "[time", "open-head"),
        ("[time]", "time", "no-equals"),
        ("[time]", "[game]", "twice-head"),
        ("pupils = [3, 4]", "groups = [3, 4]", "twice-name"),
        ('hints = "auto"', 'hints = "\\quick"', "backslash"),
        ("[time]", "[]", "no-key"),
        ("bell_to_bell = 45", "bell_to_bell = 45 min", "slip-unit"),
        ("bell_to_bell = 45", "= 45", "no-statement"),
        ('hints = "auto"', "hints = “auto”", "slip-curly"),
        ('versions = { sheaves = "by-torch" }', 'versions = { sheaves = "by-torch"', "open-braces"),
        ('versions = { sheaves = "by-torch" }', "versions = [", "open-list"),
        ('versions = { sheaves = "by-torch" }', 'versions = """', "open-text"),
    ],
)
def test_a_fault_of_form_comes_alone_with_its_line(
    changed: Callable[..., Path], old: str, new: str, code: str
) -> None:
    folder = changed((old, new))
    before, _, _ = (SAMPLE / "game.toml").read_text(encoding="utf-8").partition(old)
    line = before.count("\n") + 1
    (one,) = problems(folder)
    assert one.code == f"folder.{code}", words(one.what)
    assert one.where.line == line, one.where


def test_deep_nesting_is_told(sample: Path) -> None:
    (sample / "game.toml").write_text("a = " + "[" * 5000 + "]" * 5000)
    assert [one.code for one in problems(sample)] == ["folder.too-deep"]


def test_a_number_of_thousands_of_digits_is_told_with_its_line(sample: Path) -> None:
    (sample / "game.toml").write_text("format = 1\na = " + "9" * 5000)
    (one,) = problems(sample)
    assert (one.code, one.where.line) == ("folder.long-number", 2)


def test_a_file_of_megabytes_is_refused(sample: Path) -> None:
    (sample / "game.toml").write_bytes(b"#" * 2_000_001)
    assert [one.code for one in problems(sample)] == ["folder.too-large"]


def test_a_file_without_leave_to_read_is_told(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", forbidden)
    assert [one.code for one in problems(sample)] == ["folder.unreadable"]


def test_a_game_file_that_links_out_of_the_folder_is_refused(sample: Path, tmp_path: Path) -> None:
    elsewhere = (sample / "room.toml").rename(tmp_path / "room.toml")
    (sample / "room.toml").symlink_to(elsewhere)
    assert [one.code for one in problems(sample)] == ["folder.outside"]


@pytest.mark.parametrize(
    "text",
    [
        "数学の箱",
        "صندوق",
        "🍎🧪",
        "#set page(fill: red)",
        "<b onload=x>",
        "=1+1",
        "*_`$\\\\@<>",
        "e\u0301",
    ],
)
def test_names_in_any_script_and_any_markup_are_text(
    changed: Callable[..., Path], text: str
) -> None:
    folder = changed(("the mill trunk", text))
    assert read(folder).game.boxes["trunk"].name == text.replace("\\\\", "\\")


@pytest.mark.parametrize("sign", ["\\u0000", "\\u0007", "\\u001b", "\\u0085", "\\r"])
def test_control_signs_are_refused_with_their_line(changed: Callable[..., Path], sign: str) -> None:
    folder = changed(("the mill trunk", f"the{sign}trunk"))
    (one,) = problems(folder)
    assert one.code == "folder.control-sign"
    assert one.where.path == ("boxes", "trunk", "name")


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\u200b", "\u200f", "\ufeff", "\u2060"])
def test_signs_that_nobody_sees_are_refused_with_place_and_name(
    changed: Callable[..., Path], sign: str
) -> None:
    (one,) = problems(changed(("the mill trunk", f"the mill{sign} trunk")))
    assert one.code == "folder.control-sign"
    assert one.where.path == ("boxes", "trunk", "name")
    assert f"U+{ord(sign):04X}, " in words(one.what)
    assert "the mill trunk" in words(one.what)


@pytest.mark.parametrize(
    "text", ["\U0001f469\u200d\U0001f33e", "\u0646\u0645\u06cc\u200c\u0634\u0648\u062f"]
)
def test_joiners_that_scripts_and_emoji_need_are_text(
    changed: Callable[..., Path], text: str
) -> None:
    assert read(changed(("the mill trunk", text))).game.boxes["trunk"].name == text


@pytest.mark.parametrize(
    ("name", "near"),
    [("game.toml", "game.toml.txt"), ("kit.toml", "Kit.toml"), ("room.toml", "room.txt")],
)
def test_a_file_under_nearly_its_name_is_told(sample: Path, name: str, near: str) -> None:
    (sample / name).rename(sample / near)
    (one,) = problems(sample)
    assert (one.code, one.where.file) == ("folder.misnamed", near)
    assert f"Rename {near} to {name}" in words(one.remedy)


def test_all_faults_of_all_files_come_together(changed: Callable[..., Path]) -> None:
    changed(("plan_mm = [9000, 7000]", "plan_mm = [9000]"), file="room.toml")
    changed(('model = "three-numbers"', 'model = "three-number"'), file="kit.toml")
    folder = changed(("ages = [9, 11]", "ages = [11, 9]"), ('closes = "trunk"', 'closes = "trank"'))
    assert {one.code for one in problems(folder)} == {
        "folder.too-few", "kit.no-model-but", "game.range-order", "game.unknown-name-but",
    }  # fmt: skip
