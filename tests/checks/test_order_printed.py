"""A sheet that leaves the order of its signs open is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.checks.order_printed import says_order
from boxwright.messages import words
from boxwright.problems import Excerpt, say
from boxwright.puzzles import count_sheet, nonogram
from boxwright.puzzles.shelf import kind, names
from tests.games import base, built, found, judged, remedy, said
from tests.puzzles.owed import Trial

CODE = "sheet.order"


def test_a_picture_that_does_not_say_how_it_is_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path))
    monkeypatch.setattr(nonogram, "words", lambda *_: {"find": say("Write the figures here.")})
    (finding,) = judged(made, made.edition, CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert isinstance(finding.evidence, Excerpt)
    assert finding.evidence.text == "Write the figures here."
    assert finding.problem.where.path == ("clues", "stencil", "versions", "one")
    assert finding.problem.where.line
    assert "stencil" in said(finding)
    assert "nonogram" in remedy(finding)


def test_a_sheet_without_a_word_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = built(base(tmp_path))
    monkeypatch.setattr(nonogram, "words", lambda *_: {})
    assert len(judged(made, made.edition, CODE)) == 1


def test_any_way_to_say_it_will_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = built(base(tmp_path))
    monkeypatch.setattr(nonogram, "words", lambda *_: {"order": say("Go on\nline by Line.")})
    assert judged(made, made.edition, CODE) == []


def test_one_sign_has_no_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    one = 'wheels = 1\nstand_in = "allowed"\ncloses = "crate"'
    game = base(
        tmp_path,
        ('wheels = 3\ncloses = "crate"', one),
        ('level = "easier"\nkind = "nonogram"', 'kind = "count-sheet"'),
    )
    made = built(game)
    monkeypatch.setattr(count_sheet, "words", lambda *_: {})
    assert judged(made, made.edition, CODE) == []


def test_a_page_of_ones_own_is_on_the_teachers_word(tmp_path: Path) -> None:
    own = 'kind = "own-sheet"\noptions = { text = ["Count the pots."] }'
    front = '[locks.front]\nmechanism = "number-wheels"'
    game = base(
        tmp_path,
        ('level = "easier"\nkind = "nonogram"', own),
        (front, f'{front}\ncode = "472"'),
    )
    assert found(game, CODE) == []


def test_another_puzzle_clears_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(nonogram, "words", lambda *_: {})
    game = base(tmp_path)
    (finding,) = found(game, CODE)
    assert "Choose another puzzle" in remedy(finding)
    base(tmp_path, ('kind = "nonogram"', 'kind = "count-sheet"'))
    assert found(game, CODE) == []


def test_the_words_of_the_catalogue_are_what_is_looked_for() -> None:
    assert says_order("Read from top to bottom.", "en")
    assert not says_order("Read them.", "en")


@pytest.mark.parametrize("name", [one for one in names() if one != "own-sheet"])
def test_every_kind_says_it_in_every_way_it_is_made(name: str) -> None:
    trial = Trial(name, kind(name))
    if "scanner" in trial.kind.FACTS.uses:
        pytest.skip("what a reader shows comes in its order")
    for seed in range(6):
        request, made, _ = trial.made(f"order {seed}")
        parts = (p.name for p in trial.kind.FACTS.parts if p.reader == "pupils")
        texts = [
            words(message)
            for part in parts
            if getattr(made.sheet, part) is not None
            for message in trial.kind.words(made.sheet, part).values()
        ]
        assert len(request.answer.symbols) == 1 or says_order(" ".join(texts), "en"), texts
