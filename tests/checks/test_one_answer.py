"""A sheet with another answer, several, or none is a stop; one not searched through, to fix."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from boxwright.build import Built
from boxwright.choose.edition import Edition
from boxwright.problems import Answers, say
from boxwright.puzzles import nonogram, quiz_index
from boxwright.puzzles.contract import Answer, GaveUp, Solution
from tests.games import base, built, found, judged, remedy, said

CODE = "sheet.one-answer"
DOUBLES = Path(__file__).parent.parent / "puzzles" / "two_answers"


def with_sheet(made: Built, clue: str, sheet: Any, knows: Any) -> Edition:
    """An edition with another sheet in the place of a clue's."""
    kept = replace(made.edition.sheets[clue], sheet=sheet, knows=knows)
    return replace(made.edition, sheets={**made.edition.sheets, clue: kept})


def test_a_sheet_of_two_answers_is_a_stop_that_names_both(tmp_path: Path) -> None:
    made = built(base(tmp_path))
    double = json.loads((DOUBLES / "nonogram.json").read_text(encoding="utf-8"))
    edition = with_sheet(made, "stencil", double["sheet"], double["knows"])
    (finding,) = judged(made, edition, CODE)
    assert finding.problem.code == "sheet.one-answer-several"
    assert (finding.severity, finding.basis, finding.set) == ("stop", "computed", "a")
    assert isinstance(finding.evidence, Answers)
    assert sorted(finding.evidence.codes) == sorted("".join(one) for one in double["answers"])
    assert finding.problem.where.path == ("clues", "stencil", "versions", "one")
    assert finding.problem.where.line
    assert all("".join(one) in said(finding) for one in double["answers"])
    assert "".join(made.edition.codes["front"]) in said(finding)


def test_a_sheet_made_for_another_code_is_a_stop(tmp_path: Path) -> None:
    made = built(base(tmp_path))
    codes = {**made.edition.codes, "front": ("9", "9", "9")}
    (finding,) = judged(made, replace(made.edition, codes=codes), CODE)
    assert finding.problem.code == "sheet.one-answer-other"
    assert "999" in said(finding)
    assert "".join(made.edition.codes["front"]) in said(finding)


def test_a_sheet_without_an_answer_is_a_stop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path))
    monkeypatch.setattr(nonogram, "solve", lambda *_: iter(()))
    (finding,) = judged(made, made.edition, CODE)
    assert finding.problem.code == "sheet.one-answer-none"
    assert finding.severity == "stop"
    assert "no answer at all" in said(finding)


def test_a_search_that_gave_up_after_the_right_answer_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path))
    meant = Answer("digits", made.edition.codes["front"])

    def solve(*_: object) -> Iterator[Solution]:
        yield Solution(meant)
        raise GaveUp(1000)

    monkeypatch.setattr(nonogram, "solve", solve)
    monkeypatch.setattr(nonogram, "hints", lambda *_: (say("one"), say("two"), say("three")))
    monkeypatch.setattr(nonogram, "mistakes", lambda *_: iter(()))
    (finding,) = judged(made, made.edition, CODE)
    assert finding.problem.code == "sheet.one-answer-unknown"
    assert finding.severity == "fix"
    assert "not known" in said(finding)


def test_what_rests_on_declared_answers_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path))
    monkeypatch.setattr(quiz_index, "solve", lambda *_: iter(()))
    (finding,) = judged(made, made.edition, CODE)
    assert finding.basis == "declared"


def test_every_sheet_that_was_just_made_has_one_answer(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_making_the_sheet_anew_clears_it(tmp_path: Path) -> None:
    made = built(base(tmp_path))
    double = json.loads((DOUBLES / "nonogram.json").read_text(encoding="utf-8"))
    edition = with_sheet(made, "stencil", double["sheet"], double["knows"])
    (finding,) = judged(made, edition, CODE)
    assert "--again stencil" in remedy(finding)
    again = replace(edition, sheets=built(tmp_path / "game").edition.sheets)
    assert judged(made, again, CODE) == []
