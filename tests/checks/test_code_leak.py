"""A code that stands in a text for pupils is told, in whatever way it is written."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

from boxwright.problems import Excerpt, say
from boxwright.puzzles import unseen_ink
from tests.games import base, built, found, judged, remedy, said

CODE = "leak.code"
AWAY = "The gardener is away."
DRUM = '[locks.drum]\nmechanism = "number-wheels"'
SIDE = 'mechanism = "direction"\nlength = [7, 7]'
WORDS = 'code = "one of BEAN LEAF ROOT"'
GLOW = 'needs = ["torch"]'
MOVES = "up left up right down left up"


def telling(tmp_path: Path, text: str, code: str = "427") -> Path:
    return base(tmp_path, (AWAY, text), (DRUM, f'{DRUM}\ncode = "{code}"'))


@pytest.mark.parametrize(
    "text",
    [
        "The old well is 427 steps away.",
        "Remember 4-2-7, she said.",
        "Remember 4, 2, 7.",
        "She counted four two seven.",
        "She counted four hundred and twenty-seven seeds.",
        "Her door is four twenty-seven.",
        "Backwards it is 724.",
        "Backwards it is seven two four.",
        "She wrote x427y on the wall.",
    ],
)
def test_figures_and_number_words_give_a_code_away(tmp_path: Path, text: str) -> None:
    (finding,) = found(telling(tmp_path, text), CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert isinstance(finding.evidence, Excerpt)
    assert finding.evidence.text.startswith(text)
    assert finding.problem.where.path == ("story", "opening", 0)
    assert finding.problem.where.line
    assert finding.also[0].path == ("locks", "drum", "code")
    assert "427" in said(finding)
    assert "drum" in said(finding)


@pytest.mark.parametrize(
    "text",
    [
        "She sowed 14270 seeds.",
        "The rows are 1, 4, 2, 7.",
        "She counted one four two seven.",
        "She has four boxes, two bags and seven tins.",
        "Forty-two seeds were sown.",
    ],
)
def test_longer_runs_and_other_numbers_do_not(tmp_path: Path, text: str) -> None:
    assert found(telling(tmp_path, text), CODE) == []


def test_its_own_line_is_told_though_another_paragraph_is_not_told(tmp_path: Path) -> None:
    game = telling(tmp_path, "The old well is 427 steps away.")
    untold = '{ when = "lamp", text = "Beside it lies a lamp." },'
    lamp = '[items.lamp]\nname = "a lamp"\nplace = "tin"\noptional = true\n\n'
    base(
        tmp_path,
        ("opening = [", f"opening = [\n  {untold}"),
        ("[items.seeds]", f"{lamp}[items.seeds]"),
    )
    finding = found(game, CODE)[0]
    lines = (game / "game.toml").read_text(encoding="utf-8").splitlines()
    assert "427" in lines[(finding.problem.where.line or 0) - 1]


def test_a_word_is_a_code_too_but_not_inside_another(tmp_path: Path) -> None:
    game = base(tmp_path, (AWAY, "Turn a new leaf."), (WORDS, 'code = "LEAF"'))
    (finding,) = found(game, CODE)
    assert "LEAF" in said(finding)
    base(tmp_path, ("Turn a new leaf.", "Read the leaflet and F. A. E. L. too."))
    assert len(found(game, CODE)) == 1
    base(tmp_path, (" and F. A. E. L. too", ""))
    assert found(game, CODE) == []


@pytest.mark.parametrize("text", [MOVES.title(), "Walk ↑←↑→↓←↑ to it.", "Then U L U R D L U."])
def test_moves_are_read_in_words_arrows_and_letters(tmp_path: Path, text: str) -> None:
    game = base(tmp_path, (AWAY, text), (SIDE, f'{SIDE}\ncode = "{MOVES}"'))
    assert len(found(game, CODE)) == 1


def test_one_move_less_is_another_code(tmp_path: Path) -> None:
    game = base(tmp_path, (AWAY, "Walk ↑←↑→↓← to it."), (SIDE, f'{SIDE}\ncode = "{MOVES}"'))
    assert found(game, CODE) == []


def test_a_name_gives_a_code_away(tmp_path: Path) -> None:
    game = base(tmp_path, ("a violet torch", "torch no. 427"), (DRUM, f'{DRUM}\ncode = "427"'))
    (finding,) = found(game, CODE)
    assert finding.problem.where.path == ("items", "torch", "name")


def test_a_hint_of_ones_own_gives_a_code_away(tmp_path: Path) -> None:
    hints = f'{GLOW}\nhints = ["Look.", "Shine.", "It is 427."]'
    (finding,) = found(base(tmp_path, (GLOW, hints), (DRUM, f'{DRUM}\ncode = "427"')), CODE)
    assert finding.problem.where.path == ("clues", "glow", "versions", "one", "hints", 2)
    assert finding.problem.where.line


def test_a_made_hint_that_gives_the_code_away_is_told_with_its_clue(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path, (DRUM, f'{DRUM}\ncode = "427"')))
    _plant(monkeypatch, unseen_ink, "hints", lambda *_: (say("Look."), say("Shine."), say("427!")))
    (finding,) = judged(made, made.edition, CODE)
    assert finding.problem.code == "leak.code-made"
    assert finding.problem.where.path == ("clues", "glow", "versions", "one")
    assert "glow" in said(finding)
    assert "--again glow" in remedy(finding)


def test_a_sentence_on_a_sheet_gives_another_ones_code_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = built(base(tmp_path))
    other = "".join(made.edition.codes["front"])
    _plant(monkeypatch, unseen_ink, "describe", lambda *_: say(f"A field of {other} flowers."))
    (finding,) = judged(made, made.edition, CODE)
    assert finding.also[0].path == ("locks", "front", "code")


def test_the_body_of_a_sheet_that_prints_figures_by_design_is_left_out(tmp_path: Path) -> None:
    made = built(base(tmp_path, (DRUM, f'{DRUM}\ncode = "427"')))
    quiz = made.edition.sheets["parts"]
    body = dict(quiz.sheet["sheet"])
    questions = [dict(one) for one in body["questions"]]
    questions[0] |= {"text": "Is 427 a number?"}
    changed = replace(quiz, sheet={"sheet": body | {"questions": questions}})
    edition = replace(made.edition, sheets={**made.edition.sheets, "parts": changed})
    assert judged(made, edition, CODE) == []


def test_changing_the_text_clears_it(tmp_path: Path) -> None:
    game = telling(tmp_path, "The old well is 427 steps away.")
    (finding,) = found(game, CODE)
    assert "Change that text" in remedy(finding)
    base(tmp_path, ("427 steps", "many steps"))
    assert found(game, CODE) == []


def _plant(monkeypatch: pytest.MonkeyPatch, kind: ModuleType, name: str, fault: object) -> None:
    monkeypatch.setattr(kind, name, fault)
