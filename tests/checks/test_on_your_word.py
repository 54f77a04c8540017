"""What rests on the teacher's word is listed once."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "sheet.on-your-word"
QUIZ = 'kind = "quiz-index"\ncontent = "parts.csv"'
OWN = 'kind = "own-sheet"\noptions = { text = ["Count the pots by the door."] }'
STENCIL = 'level = "easier"\nkind = "nonogram"'
FRONT = '[locks.front]\nmechanism = "number-wheels"'


def test_a_quiz_of_the_teachers_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path), CODE)
    assert (finding.severity, finding.basis) == ("note", "declared")
    assert finding.evidence == Count(4, 5)
    assert finding.problem.where.path == ("clues", "parts")
    assert finding.problem.where.line
    assert "parts" in said(finding)
    assert "teacher's key" in remedy(finding)


def test_a_page_of_ones_own_is_named_beside_it(tmp_path: Path) -> None:
    game = base(tmp_path, (STENCIL, OWN), (FRONT, f'{FRONT}\ncode = "472"'))
    (finding,) = found(game, CODE)
    assert [place.path for place in finding.also] == [("clues", "parts")]
    assert "stencil and parts" in said(finding)


def test_a_game_that_can_be_computed_needs_no_word(tmp_path: Path) -> None:
    assert found(base(tmp_path, (QUIZ, 'kind = "count-sheet"')), CODE) == []


def test_a_map_with_plain_names_needs_none_either(tmp_path: Path) -> None:
    # Its kind may rest on hints of the teacher's; this sheet has none.
    (finding,) = found(base(tmp_path), CODE)
    assert "rounds" not in said(finding)
