"""What the fonts lack is printed as something else and told, never left as an empty box."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.fonts import (
    COMMON,
    ENVIRONMENT,
    Faces,
    clusters,
    faces,
    font_folders,
    gate,
    gate_all,
    substitute,
    unprintable,
)
from boxwright.messages import words
from boxwright.problems import Refused, Where

HERE = Where("content/q.csv", (3, "right"), 4, 1)


def printed(text: str) -> str:
    return gate(text, HERE)[0]


def test_the_face_made_for_reading_comes_first() -> None:
    assert faces().families == ("Atkinson Hyperlegible", "Noto Sans")


def test_our_own_first_face_holds_what_it_is_known_to_hold() -> None:
    assert faces().signs[0] >= COMMON


def test_common_signs_of_our_own_faces_are_passed_without_opening_a_font() -> None:
    plain, nothing = "A plain text – “whole” as it is.", Faces(faces().folders, (), ())
    assert gate(plain, HERE, nothing) == (plain, ())
    assert gate("Ω", HERE, nothing)[1]
    assert gate(plain, HERE, Faces((), (), ()))[1]


@pytest.mark.parametrize(
    "text", ["Plain.", "“Łódź” – ½ l, 5 °C, 3 × 4", "Ελλάδα", "Київ", "हिन्दी", "e\u0301"]
)
def test_what_the_fonts_hold_is_left_alone(text: str) -> None:
    assert unprintable(text) == ()
    assert gate(text, HERE)[1] == ()


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("→", "->"),
        ("①", "1"),
        ("𝐀", "A"),
        ("☐", "[ ]"),
        ("😀", "(grinning face)"),
        ("✓", "(check mark)"),
        ("👍🏽", "(thumbs up sign, emoji modifier fitzpatrick type-4)"),
        ("🇬🇧", "(GB)"),
        ("\ue000", "(U+E000)"),
        ("\ud800", "(U+D800)"),
        ("\x07", ""),
    ],
)
def test_a_missing_sign_gets_a_look_alike_its_letters_or_its_name(text: str, instead: str) -> None:
    assert printed(f"a{text}b") == f"a{instead}b"


def test_a_missing_sign_is_told_with_its_place_and_substitute() -> None:
    (lack,) = unprintable("Draw → here")
    assert (lack.at, lack.sign, lack.substitute) == (5, "→", "->")
    text, (problem,) = gate("Draw → here", HERE)
    assert text == "Draw -> here"
    assert problem.where == HERE
    assert words(problem.what) == (
        "No font here has the sign → (at character 6 of “Draw → here”). "
        "In its place is printed: “->”."
    )


def test_following_the_remedy_clears_the_complaint() -> None:
    _, (problem,) = gate("Draw → here", HERE)
    assert "without →" in words(problem.remedy)
    assert gate("Draw here", HERE)[1] == ()


def test_the_same_sign_is_told_once_with_its_count() -> None:
    _, (problem,) = gate("→ → →", HERE)
    assert "3 times" in words(problem.what)


def test_a_whole_foreign_text_is_told_once() -> None:
    _, (problem,) = gate("日本語の文字です", HERE)
    assert problem.code == "font.lacks-many"
    assert problem.what.args["n"] == 8
    assert ENVIRONMENT in words(problem.remedy)


@pytest.mark.parametrize(
    ("text", "whole"),
    [("👩‍👩‍👧!", 2), ("🇬🇧🇫🇷", 2), ("e\u0301\u0323x", 2), ("1️⃣", 1), ("\r\nx", 2), ("", 0)],
)
def test_signs_are_counted_as_a_reader_counts_them(text: str, whole: int) -> None:
    assert len(list(clusters(text))) == whole


def test_odd_spaces_and_line_ends_become_plain_ones_without_a_word() -> None:
    assert gate("a\tb\u3000c\r\nd\u2028e", HERE) == ("a b c\nd\ne", ())


def test_letters_come_out_composed() -> None:
    assert printed("Cafe\u0301") == "Café"


@given(st.text())
def test_whatever_comes_in_only_printable_signs_come_out(text: str) -> None:
    out, problems = gate(text, HERE)
    assert unprintable(out) == ()
    assert gate(out, HERE) == (out, ())
    assert bool(problems) == bool(unprintable(text))
    out.encode()  # no half of a pair is left over


@given(st.text())
def test_cut_into_signs_and_joined_a_text_is_the_same(text: str) -> None:
    parts = list(clusters(text))
    assert "".join(cluster for _, cluster in parts) == text
    assert all(text.startswith(cluster, at) for at, cluster in parts)


def test_texts_deep_in_a_sheet_are_found_with_their_path() -> None:
    sheet = {"rows": [{"say": "a"}, {"say": "→", "n": 3}], "on": True}
    out, (problem,) = gate_all(sheet, Where("game.toml", ("clues", "wind"), 12))
    assert out == {"rows": [{"say": "a"}, {"say": "->", "n": 3}], "on": True}
    assert problem.where.path == ("clues", "wind", "rows", 1, "say")


def test_any_folder_of_fonts_can_stand_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ours = font_folders()[1]
    for file in ours.iterdir():
        if "Italic" not in file.name:
            shutil.copy(file, tmp_path)
    monkeypatch.setenv(ENVIRONMENT, str(tmp_path))
    assert faces().families == ("Noto Sans",)
    assert faces(font_folders(ours)[0]).families == ("Noto Sans",)


def test_a_narrower_font_makes_more_signs_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(ENVIRONMENT, str(font_folders()[0]))
    assert faces().families == ("Atkinson Hyperlegible",)
    assert [lack.sign for lack in unprintable("Київ")] == ["К", "и", "ї", "в"]


@pytest.mark.parametrize(
    ("folder", "code"), [("nowhere", "font.no-folder"), (".", "font.none-in-folder")]
)
def test_a_folder_without_fonts_is_told_with_a_way_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, folder: str, code: str
) -> None:
    monkeypatch.setenv(ENVIRONMENT, str(tmp_path / folder))
    with pytest.raises(Refused) as caught:
        faces()
    (problem,) = caught.value.problems
    assert problem.code == code
    assert ENVIRONMENT in words(problem.remedy)
    monkeypatch.delenv(ENVIRONMENT)
    assert faces().families


def test_a_substitute_is_itself_printable() -> None:
    known = faces()
    for code in range(0x2190, 0x2BFF):
        if not known.hold(chr(code)):
            made = substitute(chr(code), known)
            assert made is None or all(known.hold(sign) for sign in made)
