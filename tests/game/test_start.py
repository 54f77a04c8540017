"""A new game works as it stands, and nothing that was there is lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged
from boxwright.game.folder import Folder, read_game
from boxwright.game.schema import FILES, schema_name, schema_text
from boxwright.game.start import start


def read(folder: Path) -> Folder:
    outcome = read_game(folder)
    assert isinstance(outcome, Folder), outcome
    return outcome


def test_a_new_game_can_be_arranged_at_once(tmp_path: Path) -> None:
    assert start(tmp_path / "new") is None
    outcome = arrange(read(tmp_path / "new"))
    assert isinstance(outcome, Arranged)
    game = outcome.of("1")
    assert {clue.kind for clue in game.clues.values()} == {"nonogram"}
    assert game.boxes["tin"].place == "crate"
    assert [item.wins for item in game.items.values()] == [True]


def test_title_and_ages_are_as_asked(tmp_path: Path) -> None:
    assert start(tmp_path / "new", title=' Die "Äpfel" 🍎 ', ages=(7, 9)) is None
    head = read(tmp_path / "new").game.game
    assert (head.title, head.id, head.ages) == ('Die "Äpfel" 🍎', "die-apfel", (7, 9))


def test_a_title_without_any_latin_letter_still_gives_an_id(tmp_path: Path) -> None:
    assert start(tmp_path / "new", title="数学の箱") is None
    assert read(tmp_path / "new").game.game.id == "my-game"


@pytest.mark.parametrize("file", sorted(FILES))
def test_each_file_names_its_schema_in_the_first_line(tmp_path: Path, file: str) -> None:
    start(tmp_path / "new")
    folder = tmp_path / "new"
    first = (folder / f"{file}.toml").read_text(encoding="utf-8").split("\n")[0]
    name = first.removeprefix("#:schema ")
    assert (folder / name).read_text(encoding="utf-8") == schema_text(file)
    assert name == f".schema/{schema_name(file)}"


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()
    assert start(tmp_path / "new") is None
    read(tmp_path / "new")


def test_the_folder_one_stands_in_is_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert start(Path()) is None
    read(tmp_path)


def test_a_folder_with_anything_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / ".hidden").write_text("mine")
    problem = start(tmp_path)
    assert problem is not None
    assert problem.code == "new.not-empty"
    assert [one.name for one in tmp_path.iterdir()] == [".hidden"]


def test_a_file_in_the_way_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "new").write_text("mine")
    problem = start(tmp_path / "new")
    assert problem is not None
    assert problem.code == "new.not-a-folder"
    assert (tmp_path / "new").read_text() == "mine"


@pytest.mark.parametrize(
    ("title", "ages", "code"),
    [
        ("", None, "no-title"),
        ("  ", None, "no-title"),
        ("a\nb", None, "no-title"),
        ("a\x07", None, "no-title"),
        ("x" * 81, None, "long-title"),
        (None, (11, 9), "odd-ages"),
        (None, (3, 9), "odd-ages"),
        (None, (9, 100), "odd-ages"),
    ],
)
def test_wishes_that_cannot_be_write_nothing(
    tmp_path: Path, title: str | None, ages: tuple[int, int] | None, code: str
) -> None:
    problem = start(tmp_path / "new", title, ages)
    assert problem is not None
    assert problem.code == f"new.{code}"
    assert not (tmp_path / "new").exists()


def test_a_disk_that_is_full_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(file: str) -> str:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("boxwright.game.start.schema_text", fails)
    problem = start(tmp_path / "new")
    assert problem is not None
    assert problem.code == "new.unwritable"
    assert list(tmp_path.iterdir()) == []


def test_a_place_where_one_may_not_write_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "mkdir", forbidden)
    problem = start(tmp_path / "new")
    assert problem is not None
    assert problem.code == "new.unwritable"
