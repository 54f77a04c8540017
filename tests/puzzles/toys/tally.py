"""A toy for the tests of the tests: count the dots in each row, then add the key's number.

Rules: row for row, the number of dots and the number on the key make a digit (its last
one counts). It does all that a kind owes, so that each fault planted in it stands out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pydantic import BaseModel

from boxwright.dice import Dice
from boxwright.game.model import LEVELS
from boxwright.problems import Message, Problem, say
from boxwright.puzzles.contract import (
    Answer,
    Carries,
    Effort,
    Facts,
    Given,
    Made,
    Mistake,
    NoKnows,
    Part,
    Solution,
    Step,
)
from boxwright.puzzles.shelf import shelf

FACTS = Facts(
    answers=(Carries("digits", frozenset("0123456789"), 1, 4),),
    ages=(6, 9),
    band_minutes=(1, 3),
    skill=frozenset({"counting"}),
    parts=(Part("sheet"), Part("key", apart=True)),
)
RULES = say("nonogram.rules")
Knows = NoKnows


class Options(BaseModel, frozen=True, extra="forbid"):
    """None."""


@dataclass(frozen=True)
class Dots:
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Key:
    add: int


@dataclass(frozen=True)
class Sheet:
    sheet: Dots | None = None
    key: Key | None = None


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    return None if FACTS.carries(answer) else shelf().cannot_carry("nonogram", answer)


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    add = dice.between(1, 9)
    more = 10 * (LEVELS.index(given.level) + 1)
    counts = tuple((int(symbol) - add) % 10 + more for symbol in answer.symbols)
    return Made(Sheet(Dots(counts), Key(add)), NoKnows())


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    assert sheet.sheet is not None
    for add in range(1, 10) if sheet.key is None else (sheet.key.add,):
        symbols = tuple(str((count + add) % 10) for count in sheet.sheet.counts)
        step = Step(say("nonogram.row", number=1), (("sheet", "counts", 0),))
        yield Solution(Answer("digits", symbols), (step,))


def describe(sheet: Sheet, part: str) -> Message:
    return say("nonogram.hint-begin")


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    return {"how": say("nonogram.order-one")}


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    row = say("nonogram.row", number=1)
    return (
        say("nonogram.hint-begin"),
        say("nonogram.order-one"),
        say("nonogram.hint-line", line=row),
    )


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    symbols = tuple(str((int(symbol) + 1) % 10) for symbol in solution.answer.symbols)
    yield Mistake(Answer("digits", symbols), say("nonogram.mistake-backwards"), False)


def effort(sheet: Sheet) -> Effort:
    assert sheet.sheet is not None
    return Effort(3, 0, sum(sheet.sheet.counts), 1, "counting")
