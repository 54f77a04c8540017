"""A sign that no font holds is told with its place, and with what is printed for it."""

from __future__ import annotations

from pathlib import Path

from boxwright.fonts import gate
from boxwright.problems import Where
from tests.games import base, found, remedy, said

CODE = "font.lacks"
STORY = "The gardener is away."
NAME = "the wooden crate"


def test_a_picture_sign_in_the_story_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (STORY, f"{STORY} \U0001f331")), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.problem.where.path == ("story", "opening", 0)
    assert finding.problem.where.line
    assert "\U0001f331" in said(finding)
    assert "(seedling)" in said(finding)
    assert STORY[-10:] in said(finding)


def test_what_is_said_to_be_printed_is_printed(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (STORY, f"{STORY} \U0001f331")), CODE)
    printed, _ = gate("\U0001f331", Where("game.toml"))
    assert f"“{printed}”" in said(finding)


def test_each_sign_of_a_text_is_told_with_what_is_printed_for_it(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (STORY, f"{STORY} \U0001f331 ①")), CODE)
    assert "\U0001f331 (in its place is printed: “(seedling)”)" in said(finding)
    assert "① (in its place is printed: “1”)" in said(finding)


def test_each_text_is_told_at_its_own_place(tmp_path: Path) -> None:
    game = base(tmp_path, (STORY, f"{STORY} 水"), (f'"{NAME}"', f'"{NAME} 水"'))
    paths = [one.problem.where.path for one in found(game, CODE)]
    assert paths == [("story", "opening", 0), ("boxes", "crate", "name")]


def test_a_cell_of_a_table_is_told_with_its_line(tmp_path: Path) -> None:
    game = base(tmp_path)
    table = game / "content" / "parts.csv"
    lines = table.read_text(encoding="utf-8").splitlines()
    lines[2] = lines[2].replace(",", " \U0001f331,", 1)
    table.write_text("\n".join(lines) + "\n", encoding="utf-8")
    (finding,) = found(game, CODE)
    where = finding.problem.where
    assert (where.file, where.line) == ("content/parts.csv", 3)


def test_the_kit_is_looked_at_too_but_no_code(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, ('name = "tea tin"', 'name = "tea tin \U0001fad6"'), file="kit.toml")
    side = '[locks.side]\nmechanism = "direction"'
    base(tmp_path, (side, f'{side}\ncode = "↑→↓→↑←↑"'))
    (finding,) = found(game, CODE)
    assert finding.problem.where.file == "kit.toml"


def test_accents_and_marks_that_the_fonts_hold_are_fine(tmp_path: Path) -> None:
    text = "Zoë’s café – “½ a crêpe”, Łódź …"
    assert found(base(tmp_path, (STORY, text)), CODE) == []


def test_writing_without_it_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (STORY, f"{STORY} \U0001f331"))
    (finding,) = found(game, CODE)
    assert "without \U0001f331" in remedy(finding)
    base(tmp_path, (f"{STORY} \U0001f331", STORY))
    assert found(game, CODE) == []
