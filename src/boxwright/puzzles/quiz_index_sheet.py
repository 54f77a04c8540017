"""What a quiz prints, and what pupils know besides: types that maker and solver share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Carried = Literal["digits", "letters", "moves"]
Sign = Literal["circle", "square", "triangle", "star", "plus", "hourglass", "heart", "ring"]

LABELS: dict[Carried, tuple[str, ...]] = {
    "digits": tuple("123456"),
    "letters": tuple("ABCDEF"),
    "moves": ("up", "down", "left", "right"),
}
"""What options can be marked with, in the order in which they stand."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One option of a question: the digit, letter or move before it, and its text."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Question:
    """One question, with its sign and its options in the order in which they stand."""

    sign: Sign
    text: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Quiz:
    """What is printed. `asked` are the signs over the boxes of the code, from the left."""

    carries: Carried
    questions: tuple[Question, ...]
    asked: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The one part."""

    sheet: Quiz | None = None


@dataclass(frozen=True, slots=True)
class Fact:
    """The right option of one question."""

    question: str
    right: str


@dataclass(frozen=True, slots=True)
class Knows:
    """What pupils bring along: the right options, in alphabetical order of the questions."""

    facts: tuple[Fact, ...] = ()
