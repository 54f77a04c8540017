"""What a table's answer is: right, a usual mistake, nearly right, or nothing known."""

from __future__ import annotations

from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest

from boxwright.game.mechanisms import Device, device_of, parse_lock
from boxwright.live.naming import Named, named_code, named_word
from boxwright.paper.solved import Solved
from boxwright.problems import Refused, Where, say
from boxwright.puzzles.contract import Answer, Mistake, Solution

WHERE = Where("", ("text",))
MEANS = say("live.all")


def wheels(text: str = "number-wheels:3") -> Device:
    return device_of(parse_lock(text, WHERE), WHERE)


def sheet(answer: Answer, *wrong: str, device: Device | None = None) -> Solved:
    """Return a sheet whose kind knows these mistakes."""

    def mistakes(*_: Any) -> Iterator[Mistake]:
        for one in wrong:
            yield Mistake(Answer(answer.alphabet, tuple(one)), MEANS, False)

    kind: Any = SimpleNamespace(mistakes=mistakes)
    return Solved(kind, None, None, Solution(answer), "en", device)


def named(text: str, code: str = "427", device: Device | None = None) -> Named:
    solved = sheet(Answer("digits", tuple(code)), "724", device=device or wheels())
    return named_code(solved, tuple(code), text, WHERE)


@pytest.mark.parametrize(
    ("text", "sort"),
    [("427", "right"), (" 4 2 7 ", "right"), ("724", "mistake"), ("429", "near"), ("135", "other")],
)
def test_a_code_is_named(text: str, sort: str) -> None:
    assert named(text).sort == sort


def test_a_usual_mistake_comes_with_what_it_means() -> None:
    assert named("724").means == MEANS


def test_what_is_right_of_an_unknown_answer_is_told_place_by_place() -> None:
    assert named("497").says == say("live.named-near", n=2, at=("1", "3"))


def test_what_the_lock_cannot_show_is_refused() -> None:
    with pytest.raises(Refused):
        named("42")


def test_an_answer_to_a_lock_that_cannot_be_set_is_named_all_the_same() -> None:
    from dataclasses import replace

    fixed = replace(wheels(), fixed=("4", "2", "7"))
    assert named("724", device=fixed).sort == "mistake"


def test_a_word_is_named_whatever_its_capitals_and_spaces() -> None:
    solved = sheet(Answer("text", tuple("CHAIR")), "CHAII")
    found = [named_word(solved, "CHAIR", text, WHERE).sort for text in ("chair ", "chaii", "sill")]
    assert found == ["right", "mistake", "other"]


def test_nothing_is_no_answer() -> None:
    with pytest.raises(Refused):
        named_word(sheet(Answer("text", ("A",))), "A", "  ", WHERE)


def test_what_opens_the_lock_all_the_same_is_no_mistake() -> None:
    """A keypad of buttons takes its figures in any order."""
    keypad = device_of(parse_lock("keypad:4:any-order", WHERE), WHERE)
    solved = sheet(Answer("digits", tuple("3812")), "2183", "3811", device=keypad)
    assert ["".join(one.answer.symbols) for one in solved.wrong()] == ["3811"]
    assert [wrong for wrong, _ in solved.mistakes()] == ["3811"]
    assert named_code(solved, tuple("3812"), "2183", WHERE).right
