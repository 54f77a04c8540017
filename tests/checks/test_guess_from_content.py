"""A code that is one of a few words of the lesson is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

CODE = "guess.from-content"
WORDS = 'code = "one of BEAN LEAF ROOT"'
FENCES = 'kind = "pigpen"\nplace = "jar"'
WITH_TABLE = f'{FENCES}\ncontent = "parts.csv"'
SEAL = 'mechanism = "number-wheels"\nwheels = 4'
QUIZ = 'kind = "quiz-index"'
FIGURES = 'kind = "pigpen"'


def of_lesson(tmp_path: Path, code: str) -> Path:
    return base(tmp_path, (FENCES, WITH_TABLE), (WORDS, f'code = "{code}"'))


def test_a_word_of_the_lesson_is_noted_with_how_many_there_are(tmp_path: Path) -> None:
    (finding,) = found(of_lesson(tmp_path, "ROOT"), CODE)
    assert (finding.severity, finding.basis) == ("note", "estimated")
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.found < finding.evidence.limit
    assert finding.problem.where.path == ("locks", "label", "code")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("ROOT", "label", "fences"))


def test_a_shorter_word_counts_with_the_blanks_behind_it(tmp_path: Path) -> None:
    base(tmp_path, ("in the leaf", "in the rod"), file="content/parts.csv")
    base(tmp_path, ("AEOILRNSTK", "AEOILRNSDK"), file="kit.toml")
    (finding,) = found(of_lesson(tmp_path, "ROD"), CODE)
    assert "ROD" in said(finding)


def test_so_is_a_year_of_the_lesson(tmp_path: Path) -> None:
    base(tmp_path, ("What grows into", "What grew in 1783 into"), file="content/parts.csv")
    game = base(tmp_path, (SEAL, f'{SEAL}\ncode = "1783"'), (QUIZ, FIGURES))
    (finding,) = found(game, CODE)
    assert finding.problem.where.path == ("locks", "seal", "code")


def test_a_word_that_is_not_in_the_lesson_is_fine(tmp_path: Path) -> None:
    assert found(of_lesson(tmp_path, "BEAN"), CODE) == []


def test_a_lesson_with_hundreds_of_fitting_figures_is_fine(tmp_path: Path) -> None:
    rows = "\n".join(f"Year {year}?,a,b,c,d" for year in range(1500, 1783))
    game = base(tmp_path, (SEAL, f'{SEAL}\ncode = "1782"'), (QUIZ, FIGURES))
    assert found(game, CODE) == []
    table = game / "content" / "parts.csv"
    table.write_text(table.read_text(encoding="utf-8") + rows + "\n", encoding="utf-8")
    assert found(game, CODE) == []


def test_a_code_that_is_no_word_of_the_lesson_clears_it(tmp_path: Path) -> None:
    game = of_lesson(tmp_path, "ROOT")
    (finding,) = found(game, CODE)
    assert "no word of the lesson" in remedy(finding)
    base(tmp_path, ('code = "ROOT"', 'code = "BEAN"'))
    assert found(game, CODE) == []
