"""Each fault is one complaint: at its line, with choices, the nearest name and a way out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from pydantic import BaseModel, ValidationError

from boxwright.game.faults import problems_of
from boxwright.game.folder import Folder, read_game
from boxwright.game.model import ID_PATTERN, Id
from boxwright.game.toml_file import TomlFile, parsed
from boxwright.game.write import edit
from boxwright.messages import words
from boxwright.problems import Edit, Problem, plain
from boxwright.text import better_id

Changed = Callable[..., Path]


def found(folder: Path) -> tuple[Problem, ...]:
    outcome = read_game(folder)
    assert not isinstance(outcome, Folder)
    return outcome


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("licence =", "licens =", "unknown-key-but"),
        ("licence =", "colour =", "unknown-key"),
        ('title = "The Paper Mill"', "", "missing-key"),
        ('title = "The Paper Mill"', "title = 7", "wrong-sort-but"),
        ('title = "The Paper Mill"', 'title = ""', "empty-text"),
        ('title = "The Paper Mill"', f'title = "{"x" * 81}"', "long-text"),
        ("ages = [9, 11]", "ages = [9]", "too-few"),
        ("ages = [9, 11]", "ages = [9, 10, 11]", "too-many-numbers"),
        ("ages = [9, 11]", "ages = 9", "wrong-sort-but"),
        ("ages = [9, 11]", 'ages = ["9", 11]', "quoted-number"),
        ("ages = [9, 11]", "ages = [true, 11]", "wrong-sort"),
        ("ages = [9, 11]", "ages = [3, 11]", "greater-than-equal"),
        ("ages = [9, 11]", "ages = [9, 1000000000000000000000]", "less-than-equal"),
        ("ages = [9, 11]", "ages = [9, 1.5]", "wrong-sort"),
        ("[300, 200, 120]", "[300, 0, 120]", "greater-than"),
        ("[300, 200, 120]", "[300, nan, 120]", "no-number"),
        ("[300, 200, 120]", "[300, inf, 120]", "no-number"),
        ("[300, 200, 120]", "[300, false, 120]", "wrong-sort"),
        ('hints = "auto"', 'hints = "atuo"', "no-choice-but"),
        ('hints = "auto"', "hints = 100", "less-than-equal"),
        ('hints = "auto"', "hints = 1.5", "wrong-sort"),
        ('mechanism = "number-wheels"', 'mechanism = "springs"', "no-choice"),
        ('mechanism = "number-wheels"', "mechanism = 1979-05-27", "no-choice"),
        ("format = 1 ", "format = 2 ", "newer-format"),
        ("format = 1 ", 'format = "x" ', "no-format"),
        ('id = "paper-mill"', 'id = "Paper Mill"', "bad-id"),
        ('language = "en"', 'language = "english please"', "bad-language"),
        ("[boxes.safe]", "[boxes.Safe]", "bad-id"),
        ("own_lock = true", 'own_lock = "yes"', "wrong-sort-but"),
        ('place = "shelf"', "place = 5", "wrong-sort"),
        ('"any low-shelf"]', "5]", "wrong-sort"),
        ('"The recipe lies in {trunk}."', "5", "wrong-sort"),
        ('{ when = "pouch", text', '{ when = "pouch", txt', "unknown-key-but"),
        ("options = { pictures = 30 }", "options = 30", "wrong-sort"),
        ("options = { pictures = 30 }", "options = { pictures = 1979-05-27 }", "option-sort"),
        ("options = { pictures = 30 }", "options = { pictures = [inf] }", "option-sort"),
        ("[clues.find-key.versions.classroom]", "[clues.find-key.classroom]", "unknown-key"),
    ],
)
def test_a_slip_is_told_once_and_at_its_line(
    changed: Changed, old: str, new: str, code: str
) -> None:
    folder = changed((old, new))
    problems = [one for one in found(folder) if one.code == f"folder.{code}"]
    assert len(problems) == 1, [(one.code, words(one.what)) for one in found(folder)]
    assert problems[0].where.line is not None


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("licence =", "licens ="),
        ("ages = [9, 11]", 'ages = ["9", 11]'),
        ('mechanism = "number-wheels"', 'mechanism = "number-wheel"'),
        ('closes = "trunk"', 'closes = "trnuk"'),
        ('goals = ["fibre"]', 'goals = ["fiber"]'),
        ('versions = { sheaves = "daylight" }', 'versions = { sheafes = "daylight" }'),
        ('versions = { sheaves = "daylight" }', 'versions = { sheaves = "dayligth" }'),
        ("pupils = [3, 4]", "pupils = [4, 3]"),
        ("format = 1 ", "format = 2 "),
        ('content = "crew.csv"', 'content = "crew.csv"\nlevle = "easier"'),
    ],
)
def test_a_remedy_that_needs_no_thought_mends_the_game(
    changed: Changed, old: str, new: str
) -> None:
    folder = changed((old, new))
    (problem,) = found(folder)
    assert problem.edit is not None
    assert edit(folder, [problem.edit]) == ()
    assert isinstance(read_game(folder), Folder)


@pytest.mark.parametrize(
    ("old", "new", "right"),
    [
        ("ages = [9, 11]", "ages = 9", "ages = [9, 9]"),
        ("ages = [9, 11]", 'ages = "9-11"', "ages = [9, 11]"),
        ("ages = [9, 11]", 'ages = "9 to 11 years"', "ages = [9, 11]"),
        ("pupils = [3, 4]", "pupils = 4", "pupils = [4, 4]"),
        ("length = [4, 4]", 'length = "4"', "length = [4, 4]"),
        ('title = "The Paper Mill"', "title = 1888", 'title = "1888"'),
        ("wheels = 3", "wheels = 3\ncode = 427", 'code = "427"'),
        ("wheels = 3", 'wheels = 3\ncode = ["427", "385"]', 'code = "one of 427, 385"'),
        ("bell_to_bell = 45", 'bell_to_bell = "45 minutes"', "bell_to_bell = 45"),
        ("bell_to_bell = 45", "bell_to_bell = 45.0", "bell_to_bell = 45"),
        ("own_lock = true", 'own_lock = "yes"', "own_lock = true"),
        ("inside_mm = [300, 200, 120]", 'inside_mm = "300 x 200 x 120"', "[300, 200, 120]"),
        ('goals = ["fibre"]', 'goals = "fibre"', 'goals = ["fibre"]'),
    ],
)
def test_a_value_of_another_sort_is_told_as_it_should_be_and_mends_the_game(
    changed: Changed, old: str, new: str, right: str
) -> None:
    folder = changed((old, new))
    (problem,) = found(folder)
    assert right in words(problem.remedy)
    assert problem.edit is not None
    assert edit(folder, [problem.edit]) == ()
    assert isinstance(read_game(folder), Folder)


def test_one_number_where_several_are_needed_is_not_made_up(changed: Changed) -> None:
    (problem,) = found(changed(("inside_mm = [300, 200, 120]", "inside_mm = 300")))
    assert problem.edit is None
    assert "3 numbers in brackets" in words(problem.remedy)


def test_a_decimal_comma_is_thought_of_where_a_list_has_too_many_numbers(changed: Changed) -> None:
    (problem,) = found(changed(("inside_mm = [300, 200, 120]", "inside_mm = [30,5, 20, 12]")))
    assert "decimal point" in words(problem.remedy)


def test_capitals_in_an_id_are_told_where_it_is_used_and_where_it_is_given(
    changed: Changed,
) -> None:
    used = found(changed(('closes = "safe"', 'closes = "Safe"')))
    assert [one.code for one in used] == ["folder.bad-id-used"]
    given = found(changed(("[boxes.pouch]", "[boxes.Pouch]")))
    assert "folder.bad-id" in [one.code for one in given]


def test_a_name_where_an_id_belongs_is_told_with_the_id(changed: Changed) -> None:
    folder = changed(('closes = "trunk"', 'closes = "the mill trunk"'))
    (problem,) = found(folder)
    assert problem.code == "folder.name-for-id"
    assert 'closes = "trunk"' in words(problem.remedy)
    assert problem.edit is not None
    assert edit(folder, [problem.edit]) == ()
    assert isinstance(read_game(folder), Folder)


def test_the_name_of_a_place_is_told_with_its_id(changed: Changed) -> None:
    room = changed().joinpath("room.toml").read_text(encoding="utf-8")
    name = room.partition("[places.shelf]")[2].partition('name = "')[2].partition('"')[0]
    folder = changed(('place = "shelf"', f'place = "{name}"'))
    (problem,) = found(folder)
    assert problem.code == "game.named-wish"
    assert problem.edit is not None
    assert edit(folder, [problem.edit]) == ()
    assert isinstance(read_game(folder), Folder)


def test_capitals_in_a_place_are_told_with_its_id(changed: Changed) -> None:
    (problem,) = found(changed(('place = "shelf"', 'place = "Shelf"')))
    assert 'Write "shelf" instead.' in words(problem.remedy)


def test_a_clue_without_a_lock_is_shown_one_that_has_no_clue(changed: Changed) -> None:
    (problem,) = found(changed(('gives = "wind"\n', "")))
    assert 'gives = "wind"' in words(problem.remedy)


def test_a_heading_with_two_brackets_is_told_with_the_one_that_is_right(changed: Changed) -> None:
    (problem,) = found(changed(("[boxes.pouch]", "[[boxes.pouch]]")))
    assert problem.code == "folder.double-head"
    assert "[boxes.pouch]" in words(problem.remedy)


def test_a_wrong_member_of_a_list_is_told_without_the_number_of_its_place(
    changed: Changed,
) -> None:
    folder = changed(('"small", "box"]', '"smal", "box"]'), file="room.toml")
    (problem,) = found(folder)
    assert 'Write "small" in the list' in words(problem.remedy)


def test_choices_are_printed(changed: Changed) -> None:
    folder = changed(('mechanism = "number-wheels"', 'mechanism = "springs"'))
    (problem,) = found(folder)
    assert "number-wheels, letter-wheels" in words(problem.what)
    assert "keypad or key" in words(problem.what)


def test_both_sorts_that_a_field_takes_are_named(changed: Changed) -> None:
    (problem,) = found(changed(('place = "shelf"', "place = 5")))
    assert "a text in quotes or a list in brackets" in words(problem.what)


def test_a_faulty_box_is_still_a_box_to_those_who_name_it(changed: Changed) -> None:
    folder = changed(("inside_mm = [300, 200, 120]", "inside_mm = 300"))
    assert [one.code for one in found(folder)] == ["folder.one-number"]


def test_a_misspelt_heading_does_not_orphan_what_is_under_it(changed: Changed) -> None:
    folder = changed(("[boxes.safe]", "[boxs.safe]"))
    assert [one.code for one in found(folder)] == ["folder.unknown-key-but"]


def test_faults_come_in_the_order_of_the_file(changed: Changed) -> None:
    folder = changed(
        ("wins = true", "wins = 1"), ("licence =", "licens ="), ("wheels = 3", 'wheels = "3"')
    )
    lines = [one.where.line or 0 for one in found(folder)]
    assert lines == sorted(lines)
    assert len(lines) == 3


class Odd(BaseModel):
    """A model with a rule that the wording has never heard of."""

    when: bytes
    name: Id


def test_an_error_of_an_unknown_sort_is_still_told_in_words() -> None:
    file = parsed("when = [1]\nname = 'x'", "odd.toml")
    assert isinstance(file, TomlFile)
    with pytest.raises(ValidationError) as caught:
        Odd.model_validate(file.data)
    (problem,) = problems_of(caught.value, file, Odd)
    assert problem.code == "folder.odd-value"
    assert (problem.where.line, problem.where.column) == (1, 1)
    assert "when" in words(problem.what)


@pytest.mark.parametrize(
    ("text", "id"),
    [
        ("The Seed Tin", "the-seed-tin"),
        ("Äpfel & Birnen", "apfel-birnen"),
        ("3 locks", "locks"),
        ("数学", "thing"),
        ("x" * 60, "x" * 40),
        ("a" * 39 + " b", "a" * 39),
    ],
)
def test_a_better_id_is_a_valid_id(text: str, id: str) -> None:
    import re

    assert better_id(text) == id
    assert re.fullmatch(ID_PATTERN, id)


def test_an_edit_shows_as_json() -> None:
    assert plain(Edit("game.toml", ("a",), key="b"))["key"] == "b"
