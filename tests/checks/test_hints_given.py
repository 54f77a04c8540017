"""Hints of a teacher's own that speak of a code which is drawn anew are told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Excerpt
from tests.games import base, found, remedy, said

CODE = "hints.own-with-drawn-code"
GLOW = 'needs = ["torch"]'
FENCES = 'parts = { key = "crate" }'
ROUNDS = 'kind = "route-map"\nplace = "crate"'


def with_hint(tmp_path: Path, line: str, hint: str) -> Path:
    hints = f'hints = ["Take your time.", "{hint}", "Ask each other."]'
    return base(tmp_path, (line, f"{line}\n{hints}"))


def test_a_figure_in_a_hint_is_told(tmp_path: Path) -> None:
    hint = "The last figure is 7."
    (finding,) = found(with_hint(tmp_path, GLOW, hint), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Excerpt(hint, (19, 20))
    assert finding.problem.where.path == ("clues", "glow", "versions", "one", "hints", 1)
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("drum", "“7”", "auto"))


def test_so_is_one_of_the_words_that_are_drawn_from(tmp_path: Path) -> None:
    (finding,) = found(with_hint(tmp_path, FENCES, "A bean grows from it."), CODE)
    assert "bean" in said(finding)


def test_so_are_moves_in_a_row(tmp_path: Path) -> None:
    assert found(with_hint(tmp_path, ROUNDS, "It begins with left, up."), CODE)


def test_a_side_of_the_page_is_no_move(tmp_path: Path) -> None:
    assert found(with_hint(tmp_path, ROUNDS, "Begin at the left edge."), CODE) == []


def test_a_word_that_only_holds_one_of_them_is_fine(tmp_path: Path) -> None:
    assert found(with_hint(tmp_path, FENCES, "Mind the beanpoles."), CODE) == []


def test_a_figure_is_fine_where_the_code_is_fixed(tmp_path: Path) -> None:
    game = with_hint(tmp_path, GLOW, "The last figure is 7.")
    drum = '[locks.drum]\nmechanism = "number-wheels"'
    base(tmp_path, (drum, f'{drum}\ncode = "247"'))
    assert found(game, CODE) == []


def test_writing_it_without_the_figure_clears_it(tmp_path: Path) -> None:
    game = with_hint(tmp_path, GLOW, "The last figure is 7.")
    (finding,) = found(game, CODE)
    assert "without “7”" in remedy(finding)
    base(tmp_path, ("The last figure is 7.", "Look at the last picture again."))
    assert found(game, CODE) == []
