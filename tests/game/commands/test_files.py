"""Tables and pictures are put in, named otherwise and taken out, in the form that they have."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from tests.game.commands.conftest import Player

ROWS = [["question", "right", "wrong1"], ['What is "pulp"?', "wet fibre", "a; b, c"]]


def png() -> bytes:
    out = io.BytesIO()
    Image.new("L", (30, 20), 128).save(out, "PNG")
    return out.getvalue()


def raw(play: Player, name: str) -> bytes:
    return (play.folder / "content" / name).read_bytes()


def test_a_new_table_is_plain_csv(play: Player) -> None:
    play("content.put", name="more.csv", rows=ROWS)
    assert raw(play, "more.csv") == (
        b'question,right,wrong1\n"What is ""pulp""?",wet fibre,"a; b, c"\n'
    )


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
def test_a_table_keeps_its_form(play: Player, mark: bytes, end: bytes) -> None:
    (play.folder / "content/questions.csv").write_bytes(
        mark + b"question;right;wrong1" + end + b"old;a;b" + end
    )
    play("content.put", name="questions.csv", rows=ROWS)
    second = b'"What is ""pulp""?";wet fibre;"a; b, c"'
    assert raw(play, "questions.csv") == mark + b"question;right;wrong1" + end + second + end
    play("content.put", name="questions.csv", text="question;right;wrong1\r\nä;b;c")
    expected = mark + b"question;right;wrong1" + end + "ä;b;c".encode() + end
    assert raw(play, "questions.csv") == expected


def test_a_table_comes_in_one_form(play: Player) -> None:
    assert play.refused("content.put", name="a.csv").code == "change.text-or-rows"
    problem = play.refused("content.put", name="a.csv", text="a", rows=[["a"]])
    assert problem.code == "change.text-or-rows"


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("a.txt", "content.no-csv"),
        ("../a.csv", "change.file-name"),
        ("b/a.csv", "change.file-name"),
        (".a.csv", "change.file-name"),
        ("con.csv", "change.file-name"),
        ("a.csv ", "change.file-name"),
        ("a\\b.csv", "change.file-name"),
        ("c:a.csv", "change.file-name"),
        ("Crew.CSV", "change.file-taken"),
    ],
)
def test_a_name_is_a_files_on_every_computer(play: Player, name: str, code: str) -> None:
    assert play.refused("content.put", name=name, text="a").code == code
    assert play.refused("content.rename", name="questions.csv", new=name).code == code


def test_a_table_is_named_otherwise_wherever_clues_name_it(play: Player) -> None:
    before = raw(play, "questions.csv")
    play("content.rename", name="questions.csv", new="mill words.csv")
    assert raw(play, "mill words.csv") == before
    assert not (play.folder / "content/questions.csv").exists()
    assert 'content = { questions = "mill words.csv" }' in play.text()
    play("content.rename", name="crew.csv", new="Crew.csv")
    assert 'content = "Crew.csv"' in play.text()


def test_a_table_is_not_renamed_over_another(play: Player) -> None:
    problem = play.refused("content.rename", name="crew.csv", new="questions.csv")
    assert problem.code == "change.file-taken"
    assert play.refused("content.rename", name="none.csv", new="a.csv").code == "change.no-file"


def test_a_table_that_a_clue_uses_stays(play: Player) -> None:
    problem = play.refused("content.remove", name="crew.csv")
    assert problem.code == "change.file-used"
    play("content.put", name="spare.csv", text="a")
    play("content.remove", name="spare.csv")
    assert not (play.folder / "content/spare.csv").exists()


def test_a_picture_comes_and_goes_unless_it_is_used(play: Player) -> None:
    play("picture.put", name="wheel.png", data=png())
    options = {"pictures": ["wheel.png"]}
    play("version.change", clue="sheaves", version="daylight", options=options)
    assert play.refused("picture.remove", name="wheel.png").code == "change.file-used"
    play("version.change", clue="sheaves", version="daylight", options=None)
    play("picture.remove", name="wheel.png")
    assert list((play.folder / "pictures").iterdir()) == []


def test_a_file_that_is_no_picture_is_told(play: Player) -> None:
    assert play.refused("picture.put", name="a.png", data=b"x").code == "picture.broken"
    assert play.refused("picture.put", name="a.exe", data=png()).code == "picture.no-picture"


def test_no_copy_is_left_behind(play: Player) -> None:
    play("content.put", name="spare.csv", text="a")
    play.refused("picture.put", name="a.png", data=b"x")
    assert not [one for one in (play.folder / ".history").iterdir() if "trial" in one.name]
