"""`[forecast]` in game.toml: names and values held against the forecast's own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from boxwright.build import ALSO, read
from boxwright.build.parameters import parameters_of
from boxwright.game.commands.performing import perform
from boxwright.game.folder import Folder, read_game
from boxwright.game.history import History
from boxwright.game.text_edit import changed
from boxwright.messages import words
from boxwright.problems import Problem
from tests.games import demo

TABLE = """
[forecast]                        # measured in our own room
hint.after = 240                  # we are patient
solve.younger = 0.1
"learn.class" = 0.3
"""


def with_table(folder: Path, table: str = TABLE) -> Path:
    """Return the small game with these numbers of its own, and no others."""
    game = demo(folder)
    file = game / "game.toml"
    text = re.sub(
        r"^\[forecast\].*?(?=^\[)", "", file.read_text(encoding="utf-8"), flags=re.M | re.S
    )
    file.write_text(text + table, encoding="utf-8")
    return game


def faults(folder: Path, line: str) -> list[Problem]:
    """Return what is wrong with a game that sets one number."""
    found = read_game(with_table(folder, f"\n[forecast]\n{line}\n"), also=ALSO)
    assert not isinstance(found, Folder)
    return list(found)


def test_a_game_sets_numbers_by_their_dotted_names(tmp_path: Path) -> None:
    parameters = parameters_of(read(with_table(tmp_path)).game)
    assert parameters.given == {"hint.after": 240, "solve.younger": 0.1, "learn.class": 0.3}
    assert parameters["hint.after"] == 240
    assert parameters["hint.leaves"] == 0.4


def test_a_game_without_the_table_takes_the_usual_numbers(tmp_path: Path) -> None:
    assert parameters_of(read(with_table(tmp_path, "")).game).given == {}


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("hint.afer = 240", "Rename hint.afer to hint.after."),
        ('"hint.afer" = 240', "Rename hint.afer to hint.after."),
        ("solv.mark = 3", "Rename solv.mark to solve.mark."),
        ("hint.zzzzzzzz = 3", "Delete hint.zzzzzzzz, or rename it to one of: hint.after"),
        ("hint.leaves = 1.5", "Write 1 or a smaller number here."),
        ("read.grade-4 = 0", "Write 1 or a larger number here."),
        ("hint.after = -1", "Write 0 or a larger number here."),
        ("hint.after = inf", "Write the number in plain digits."),
        ('hint.after = "long"', "Write a number here."),
    ],
)
def test_what_makes_no_sense_is_told_at_its_line_with_what_helps(
    tmp_path: Path, line: str, said: str
) -> None:
    (problem,) = faults(tmp_path, line)
    text = (tmp_path / "game" / "game.toml").read_text(encoding="utf-8")
    assert problem.where.line == text.splitlines().index(line) + 1
    assert problem.where.path[0] == "forecast"
    assert words(problem.remedy).startswith(said)


def test_a_number_set_in_both_ways_of_writing_is_told_and_the_remedy_leaves_one(
    tmp_path: Path,
) -> None:
    (problem,) = faults(tmp_path, '"hint.after" = 240\nhint.after = 300')
    game = tmp_path / "game" / "game.toml"
    lines = game.read_text(encoding="utf-8").splitlines()
    assert problem.where.line == lines.index("hint.after = 300") + 1
    assert f"in line {problem.where.line - 1}" in words(problem.what)
    assert problem.edit is not None
    game.write_text(changed(game.read_text(encoding="utf-8"), problem.edit), encoding="utf-8")
    assert parameters_of(read(tmp_path / "game").game)["hint.after"] == 240


def test_the_remedy_for_a_slip_mends_it(tmp_path: Path) -> None:
    (problem,) = faults(tmp_path, "hint.afer = 240  # slow")
    assert problem.edit is not None
    game = tmp_path / "game" / "game.toml"
    game.write_text(changed(game.read_text(encoding="utf-8"), problem.edit), encoding="utf-8")
    assert "hint.after = 240  # slow" in game.read_text(encoding="utf-8")
    assert parameters_of(read(tmp_path / "game").game)["hint.after"] == 240


def test_a_change_in_the_studio_keeps_the_numbers_and_remarks(tmp_path: Path) -> None:
    game = with_table(tmp_path)
    history = History(game)
    asked: Mapping[str, object] = {"name": "a tin", "place": "table"}
    perform(history, "box.add", asked, history.now().tag, also=ALSO)
    text = (game / "game.toml").read_text(encoding="utf-8")
    assert "a tin" in text
    assert TABLE.strip() in text
