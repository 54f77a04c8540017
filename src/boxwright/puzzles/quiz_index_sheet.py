"""What a quiz prints, and what pupils know besides: types that maker and solver share."""

from __future__ import annotations

from typing import Literal

from boxwright.frozen import frozen_value

Carried = Literal["digits", "letters", "moves"]
Sign = Literal["circle", "square", "triangle", "star", "plus", "hourglass", "heart", "ring"]

LABELS: dict[Carried, tuple[str, ...]] = {
    "digits": tuple("123456"),
    "letters": tuple("ABCDEF"),
    "moves": ("up", "down", "left", "right"),
}
"""What options can be marked with, in the order in which they stand."""


@frozen_value
class Choice:
    """One option of a question: the digit, letter or move before it, and its text."""

    label: str
    text: str


@frozen_value
class Question:
    """One question, with its sign and its options in the order in which they stand."""

    sign: Sign
    text: str
    choices: tuple[Choice, ...]


@frozen_value
class Quiz:
    """What is printed. `asked` are the signs over the boxes of the code, from the left."""

    carries: Carried
    questions: tuple[Question, ...]
    asked: tuple[Sign, ...]


@frozen_value
class Sheet:
    """The one part."""

    sheet: Quiz | None = None


@frozen_value
class Fact:
    """The right option of one question."""

    question: str
    right: str


@frozen_value
class Knows:
    """What pupils bring along: the right options, in alphabetical order of the questions."""

    facts: tuple[Fact, ...] = ()
