"""A kind to be filled in: first the rules, as a pupil would play by them.

Copy this file and the `.typ` file beside it into the folder above, under the name of the
new kind, and fill in what raises `NotImplementedError`. Say here, too, how `solve` proves
that there is one answer, and what the kind cannot do. As long as both files lie in this
folder, the shelf does not list them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pydantic import BaseModel

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.problems import Message, Problem
from boxwright.puzzles.contract import (
    Answer,
    Carries,
    Effort,
    Facts,
    Given,
    Made,
    Mistake,
    NoKnows,
    Solution,
)

FACTS = Facts(
    answers=(Carries("digits", frozenset("0123456789"), 1, 4),),
    ages=(8, 14),
    band_minutes=(3, 8),
    skill=frozenset({"reading"}),
)
RULES = Message("my-kind.rules")
Knows = NoKnows


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose; every choice has a default."""


@frozen_value
class Drawn:
    """What is printed on the part `sheet`, and nothing else: never the answer."""


@frozen_value
class Sheet:
    """One optional field for each part, named as the part."""

    sheet: Drawn | None = None


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Say why this cannot be made; begin with `shelf().cannot_carry(..)`."""
    raise NotImplementedError


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a sheet for `answer`, by `dice` alone, within a limit of tries."""
    raise NotImplementedError


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every answer, from what is printed and known; share no code with `make`."""
    raise NotImplementedError


def describe(sheet: Sheet, part: str) -> Message:
    """Say what `part` shows, for those who do not see it; never the answer."""
    raise NotImplementedError


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return the sentences that the template draws, by name."""
    raise NotImplementedError


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give three hints from this sheet's own working; the third names a place on it."""
    raise NotImplementedError


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield likely wrong answers and what each means."""
    raise NotImplementedError


def effort(sheet: Sheet) -> Effort:
    """Say what solving costs; a higher level costs more."""
    raise NotImplementedError
