"""Wheels that lack a letter are named with the letter; words passed over are only noted."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Answers, Count, Message, MissingFace
from tests.games import base, built, found, judged, remedy, said

CODE = "lock.cannot-show"
WORDS = 'code = "one of BEAN LEAF ROOT"'
W1 = "[locks.W1]"
FIXED = '[locks.W1]\nfixed = true\ncode = "BEAN"'


def test_the_base_game_is_clean(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_a_missing_letter_is_a_stop_that_names_wheel_and_letter(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (WORDS, 'code = "BEAR"')), CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == MissingFace("W1", 4, "R", tuple("DEFKLNSTY_"))
    assert all(part in said(finding) for part in ("W1", "BEAR", "label", "R"))
    assert finding.problem.where.path == ("locks", "label", "code")
    assert finding.problem.where.line


def test_a_code_of_another_length_is_a_stop(tmp_path: Path) -> None:
    before = built(base(tmp_path)).edition
    base(tmp_path, ("length = [1, 12]", "length = [1, 5]"), file="kit.toml")
    base(tmp_path, ("length = [7, 7]", "length = [5, 5]"))
    (finding,) = judged(built(tmp_path / "game"), before, CODE)
    assert finding.evidence == Count(5, 7)
    assert "7" in said(finding)


def test_a_fixed_lock_with_another_code_is_a_stop(tmp_path: Path) -> None:
    base(tmp_path, (W1, FIXED), file="kit.toml")
    (finding,) = found(base(tmp_path, (WORDS, 'code = "LEAF"')), "lock")
    assert finding.problem.code == "lock.fixed-otherwise"
    assert finding.severity == "stop"
    assert finding.evidence == Answers(("BEAN", "LEAF"))
    assert 'code = "BEAN"' in remedy(finding)


def test_the_remedy_for_a_fixed_lock_clears_it(tmp_path: Path) -> None:
    base(tmp_path, (W1, FIXED), file="kit.toml")
    assert found(base(tmp_path, (WORDS, 'code = "BEAN"')), "lock") == []


def test_words_that_a_fixed_lock_never_has_are_notes(tmp_path: Path) -> None:
    base(tmp_path, (W1, FIXED), file="kit.toml")
    findings = found(base(tmp_path), "lock")
    assert {one.severity for one in findings} == {"note"}
    assert built(tmp_path / "game").edition.codes["label"] == tuple("BEAN")


def test_a_word_of_the_list_that_cannot_be_shown_is_a_note_and_never_drawn(tmp_path: Path) -> None:
    game = base(tmp_path, (WORDS, 'code = "one of BEAR LEAF"'))
    (finding,) = found(game, CODE)
    assert finding.severity == "note"
    assert "BEAR" in said(finding)
    assert built(game).edition.codes["label"] == tuple("LEAF")


def test_a_list_of_which_nothing_can_be_shown_is_a_stop(tmp_path: Path) -> None:
    game = base(tmp_path, (WORDS, 'code = "one of BEAR STEM"'))
    assert {finding.severity for finding in found(game, CODE)} == {"stop", "note"}


def test_the_remedy_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (WORDS, 'code = "BEAR"'))
    (finding,) = found(game, CODE)
    near = finding.problem.remedy.args["near"]
    assert isinstance(near, Message)
    word = near.args["codes"][0]  # type: ignore[index]
    assert str(word) in remedy(finding)
    base(tmp_path, ('code = "BEAR"', f'code = "{word}"'))
    assert found(game, CODE) == []
