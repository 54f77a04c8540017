"""Mistakes that open a lock are told; those that open what is open already are not."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from boxwright.problems import Answers, say
from boxwright.puzzles import nonogram
from boxwright.puzzles.contract import Answer, Mistake
from tests.games import base, built, found, judged, remedy, said

CODE = "mistake.opens"
TURNED = say("nonogram.mistake-backwards")
FRONT = '[locks.front]\nmechanism = "number-wheels"'
DRUM = '[locks.drum]\nmechanism = "number-wheels"'
CHEAP = 'mechanism = "number-wheels"\nwheels = 3\nshackle_mm = [5, 25]'


def codes(tmp_path: Path, front: str, drum: str) -> Path:
    return base(tmp_path, (FRONT, f'{FRONT}\ncode = "{front}"'), (DRUM, f'{DRUM}\ncode = "{drum}"'))


def planted(monkeypatch: pytest.MonkeyPatch, alphabet: str, symbols: str) -> None:
    """Let every picture grid have this one mistake."""

    def mistakes(*_: object) -> Iterator[Mistake]:
        yield Mistake(Answer(alphabet, tuple(symbols)), TURNED, False)  # type: ignore[arg-type]

    monkeypatch.setattr(nonogram, "mistakes", mistakes)


def test_figures_read_backwards_that_open_another_lock_are_told(tmp_path: Path) -> None:
    (finding,) = found(codes(tmp_path, "472", "274"), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Answers(("274",))
    assert finding.problem.where.path == ("clues", "stencil", "versions", "one")
    assert finding.problem.where.line
    assert finding.also[0].path == ("locks", "drum")
    assert all(part in said(finding) for part in ("stencil", "274", "drum"))


def test_a_sheet_held_upside_down_that_opens_another_lock_is_told(tmp_path: Path) -> None:
    game = codes(tmp_path, "968", "896")
    (finding,) = found(game, CODE)
    assert finding.evidence == Answers(("896",))


def test_a_lock_that_is_open_by_then_is_fine(tmp_path: Path) -> None:
    # The last clue, a picture grid too, gives the first lock's code when it is read backwards.
    last = 'kind = "unseen-ink"\nplace = "folder"\nneeds = ["torch"]'
    base(tmp_path, (last, 'level = "easier"\nkind = "nonogram"\nplace = "folder"'))
    told = {one.problem.where.path[1] for one in found(codes(tmp_path, "472", "274"), CODE)}
    assert told == {"stencil"}


def test_a_mistake_that_opens_nothing_is_fine(tmp_path: Path) -> None:
    assert found(codes(tmp_path, "472", "589"), CODE) == []


def test_a_shorter_word_is_tried_with_blanks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    base(tmp_path, ("AEOILRNSTK", "AEOILRNSDK"), file="kit.toml")
    made = built(base(tmp_path, ('"one of BEAN LEAF ROOT"', '"ROD"')))
    planted(monkeypatch, "letters", "ROD")
    (finding,) = judged(made, made.edition, CODE)
    assert "ROD" in said(finding)


def test_a_cheap_lock_that_opens_one_step_off_is_noted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    game = codes(tmp_path, "472", "589")
    planted(monkeypatch, "digits", "473")
    assert judged(built(game), built(game).edition, CODE) == []
    base(tmp_path, (CHEAP, f"{CHEAP}\ncheap = true"), file="kit.toml")
    findings = {one.problem.where.path[1]: one for one in found(game, CODE)}
    finding = findings["stencil"]
    assert finding.problem.code == "mistake.opens-own"
    assert finding.severity == "note"
    assert "front" in said(finding)


def test_another_order_on_a_lock_that_heeds_none_is_fine(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    front = f"{FRONT}\nwheels = 3"
    keypad = '[locks.front]\nmechanism = "keypad"\nlength = [3, 3]\norder_matters = false'
    made = built(base(tmp_path, (front, f'{keypad}\ncode = "472"\nstand_in = "allowed"')))
    planted(monkeypatch, "digits", "724")
    assert judged(made, made.edition, CODE) == []


def test_other_codes_clear_it(tmp_path: Path) -> None:
    game = codes(tmp_path, "472", "274")
    (finding,) = found(game, CODE)
    assert "--new" in remedy(finding)
    base(tmp_path, ('code = "274"', 'code = "auto"'))
    assert found(game, CODE) == []
