"""A slip in one line is told with the very line that is right, and that line reads."""

from __future__ import annotations

import tomllib

import pytest

from boxwright.game.toml_file import TomlFile, parsed
from boxwright.game.toml_slips import slip_in
from boxwright.messages import words
from boxwright.problems import Problem

SLIPS = [
    ("code = 027", "nought", 'code = "027"'),
    ("wheels = 03   # as counted", "nought", "wheels = 3"),
    ("[boxes.my tin]", "name-in-head", "[boxes.my-tin]"),
    ("[boxes.käse]", "name-in-head", "[boxes.kase]"),
    ("[locks.N 1]", "name-in-head", "[locks.N1]"),
    ("[boxes tin]", "name-in-head", "[boxes.tin]"),
    ("[boxes:tin]", "name-in-head", "[boxes.tin]"),
    ("[boxes.tin", "half-head", "[boxes.tin]"),
    ("boxes.tin]", "half-head", "[boxes.tin]"),
    ("ages\u00a0= [9,\u00a011]", "odd-blank", "ages = [9, 11]"),
    ("// the chest", "remark", "# the chest"),
    ("bell to bell = 45", "spaced-key", "bell_to_bell = 45"),
    ("settle = 4;", "tail", "settle = 4"),
    ("settle = 4%", "tail", "settle = 4"),
    ("name = 'the miller's notes'", "quotes", 'name = "the miller\'s notes"'),
    ('name = "the "old" mill"', "quotes", 'name = "the \\"old\\" mill"'),
    ('goals = ["logic" "tides"]', "in-list", 'goals = ["logic", "tides"]'),
    ("tolerance = 1,5", "decimal-comma", "tolerance = 1.5"),
    ("settle = 4 min", "unit", "settle = 4"),
    ("title = “The Mill”", "curly", 'title = "The Mill"'),
    ("title = The miller's house", "bare", 'title = "The miller\'s house"'),
    ("own_lock = True", "truth", "own_lock = true"),
    ("own_lock = yes", "truth", "own_lock = true"),
    ("own_lock = No", "truth", "own_lock = false"),
    ('title: "The Mill"', "colon", 'title = "The Mill"'),
    ("title: The Mill", "colon", 'title = "The Mill"'),
    ("ages = [9 11]", "in-list", "ages = [9, 11]"),
    ("holds = [sheet, small]", "in-list", 'holds = ["sheet", "small"]'),
    ("figures = [04, 112]   # on the door", "in-list", 'figures = ["04", 112]'),
]


@pytest.mark.parametrize(("line", "sort", "right"), SLIPS)
def test_a_slip_is_told_with_the_line_that_is_right(line: str, sort: str, right: str) -> None:
    problem = parsed(f"format = 1\n{line}\n", "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == (f"folder.slip-{sort}", 2)
    assert right in words(problem.remedy)


@pytest.mark.parametrize("right", [right for _, _, right in SLIPS])
def test_the_line_that_is_proposed_reads_and_has_no_slip(right: str) -> None:
    tomllib.loads(right)
    assert slip_in(right) is None


@pytest.mark.parametrize("line", ["", "# a: b", "a = ", 'a = "b', "a = [1, {", "a.b", "= 4"])
def test_what_cannot_be_guessed_is_left_to_others(line: str) -> None:
    assert slip_in(line) is None


def test_a_heading_that_stands_twice_names_the_first() -> None:
    problem = parsed("[boxes.tin]\na = 1\n\n[boxes.tin]  # again\nb = 2\n", "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.twice-head", 4)
    assert "line 1" in words(problem.what)


def test_a_lost_heading_is_thought_of_where_a_name_stands_twice() -> None:
    problem = parsed('[a]\nname = "x"\n[b]\nname = "y"\nown = true\nname = "z"\n', "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.twice-name", 6)
    assert "line 4" in words(problem.what)
    assert "heading" in words(problem.remedy)


def test_a_missing_comma_is_told_at_its_own_line() -> None:
    text = 'opening = [\n  "One.",\n  "Two."\n  "Three.",\n]\n'
    problem = parsed(text, "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.no-comma", 3)
    assert isinstance(parsed(text.replace('"Two."', '"Two.",'), "game.toml"), TomlFile)


def test_a_quotation_mark_inside_a_text_of_a_list_is_told_at_its_own_line() -> None:
    problem = parsed('opening = [\n  "One.",\n  "A "mill" stands.",\n]\n', "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.quote-in-text", 3)


def test_braces_over_several_lines_are_told_to_stand_in_one() -> None:
    problem = parsed('a = 1\noptions = {\n  rule = "It floats."\n}\n', "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.open-braces", 2)
    assert "one line" in words(problem.remedy)


def test_a_list_that_is_not_closed_lacks_no_comma() -> None:
    problem = parsed("ages = [9, 11\n\n[time]\nsettle = 4\n", "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.open-list", 1)


def test_a_text_of_a_list_that_is_not_closed_is_told_at_its_own_line() -> None:
    problem = parsed('opening = [\n  "One.",\n  "Two.,\n  "Three.",\n]\n', "game.toml")
    assert isinstance(problem, Problem)
    assert (problem.code, problem.where.line) == ("folder.open-text", 3)
