"""A field of pictures: count those that are asked for, among others that look like them.

Rules, as a pupil plays: under the frame stand pictures, each beside a blank box. Count how
many of each lie in the frame; turned ones count, the ones beside the boxes do not. The
numbers, from left to right, are the code.

Proven: `solve` counts the pictures that are placed. No two come nearer to each other than
2 mm, none is cut by the frame or turned so that it could be another one; where one is, it
may be counted or not, and `solve` gives both answers.

Limits: a count of nought is refused, for nobody can be sure to have overlooked nothing;
nine is the most, for a wheel has no ten. Whether two of the teacher's own pictures can be
told apart is seen by the teacher alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import product
from math import prod
from typing import Any

from boxwright import messages
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.game.model import Level
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles.contract import (
    Answer,
    Carries,
    Effort,
    Facts,
    GaveUp,
    Given,
    Made,
    Mistake,
    NoKnows,
    Solution,
    Step,
)
from boxwright.puzzles.count_sheet_mistakes import miscounts
from boxwright.puzzles.drawn import family_of, is_own, picture_said
from boxwright.puzzles.picture_choice import chosen, field_of, shared_out
from boxwright.puzzles.picture_field import MOST_COUNT, MOST_PICTURES, Field
from boxwright.puzzles.picture_hints import look_alike, place_said
from boxwright.puzzles.picture_reading import counts
from boxwright.puzzles.picture_wishes import Wishes, digits_refused, wishes_refused

FACTS = Facts(
    answers=(Carries("digits", frozenset("123456789"), 1, 4),),
    ages=(6, 14),
    band_minutes=(3, 12),
    skill=frozenset({"counting", "looking"}),
)
RULES = say("count-sheet.rules")
MOST_READINGS = 10_000
# Pictures beside those that are asked for, and how many there are at the least.
MORE_AT: Mapping[Level, tuple[int, int]] = {
    "easier": (3, 12),
    "ordinary": (5, 18),
    "harder": (8, 26),
    "hardest": (10, 34),
}
Knows = NoKnows


class Options(Wishes, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: how many pictures, which family, or which of their own."""


@frozen_value
class Sheet:
    """The one part."""

    sheet: Field | None = None


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse noughts and longer codes, and pictures that are too few, too many or not there."""
    problem = digits_refused("count-sheet", FACTS, answer)
    if problem is not None:
        return problem
    amount, digits = sum(map(int, answer.symbols)), len(answer.symbols)
    exact = bool(options.own) and len(options.own) <= digits
    problem = wishes_refused(options, given, digits, amount + (not exact))
    if problem is None and exact and options.pictures not in (None, amount):
        where = Where("", ("options", "own"))
        return Problem.of("count-sheet.no-others", where, amount=amount, least=digits + 1)
    return problem


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a field with as many of each asked picture as the code says, and others among them."""
    choice = chosen(len(answer.symbols), options, given.level, dice.child("choice"))
    wanted = dict(zip(choice.asked, map(int, answer.symbols), strict=True))
    amount = sum(wanted.values())
    more, least = MORE_AT[given.level]
    total = options.pictures or min(MOST_PICTURES, max(amount + more, least))
    rest = total - amount if choice.others else 0
    others = choice.others[:rest]
    shares = shared_out(rest, len(others), dice.child("shares"))
    names = Counter(wanted | dict(zip(others, shares, strict=True)))
    field = field_of(choice.asked, list(names.elements()), given, 0.0, dice.child("places"))
    return Made(Sheet(field), NoKnows())


def _field(sheet: Sheet) -> Field:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every code that can be counted: one, unless pictures touch or are cut.

    Raises:
        GaveUp: where there are too many ways to count.
    """
    field = _field(sheet)
    ways = {name: _possible(found) for name, found in counts(field, field.asked).items()}
    if prod(map(len, ways.values())) > MOST_READINGS:
        raise GaveUp(MOST_READINGS)
    for numbers in product(*ways.values()):
        found = dict(zip(ways, numbers, strict=True))
        symbols = tuple(str(found[name]) for name in field.asked)
        yield Solution(Answer("digits", symbols), tuple(_working(field, found)))


def _possible(numbers: range) -> range:
    """Return the counts that are digits; nought is none, for nothing shows it."""
    return range(max(1, numbers.start), min(MOST_COUNT, numbers.stop - 1) + 1)


def _working(field: Field, found: Mapping[str, int]) -> Iterator[Step]:
    for name, count in found.items():
        at = tuple(("sheet", "placed", number) for number in _numbers(field, name))
        yield Step(say("count-sheet.step", n=count, picture=picture_said(name)), at)


def _numbers(field: Field, name: str) -> list[int]:
    return [number for number, it in enumerate(field.placed) if it.picture == name]


def describe(sheet: Sheet, part: str) -> Message:
    """Say what is asked for; what lies in the field would be the answer."""
    asked = tuple(picture_said(name) for name in _field(sheet).asked)
    return say("count-sheet.describe", asked=asked)


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return `how` to count."""
    one = len(_field(sheet).asked) == 1
    return {"how": say("count-sheet.how-one" if one else "count-sheet.how")}


def pictures(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the names of the teacher's own pictures on the page."""
    return tuple(sort.name for sort in _field(sheet).sorts if is_own(sort.name))


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, Any]:
    """Return what fills the boxes, and for each placed picture its box's number, or 0."""
    asked = _field(sheet).asked
    boxes = {name: asked.index(name) + 1 for name in asked}
    return {
        "counts": list(solution.answer.symbols),
        "boxes": [boxes.get(it.picture, 0) for it in _field(sheet).placed],
    }


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give a way to count, then what looks alike, then how many lie in a part of the field."""
    field = _field(sheet)
    asked, other = look_alike(field)
    second = say("count-sheet.hint-look", picture=picture_said(asked))
    if other is not None:
        second = say(
            "count-sheet.hint-alike", picture=picture_said(asked), other=picture_said(other)
        )
    count, place = place_said(field, _numbers(field, asked))
    third = say("count-sheet.hint-place", n=count, picture=picture_said(asked), place=place)
    return say("count-sheet.hint-tick"), second, third


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of the wrong order, of look-alikes, and of counting one too many or few."""
    seen = {solution.answer.symbols}
    for symbols, means, noticed in miscounts(_field(sheet), solution.answer.symbols):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer("digits", symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, pictures to tick, pictures to look at closely, and look-alikes."""
    field = _field(sheet)
    families = [family_of(name) for name in field.asked]
    alike = Counter(family_of(it.picture) for it in field.placed)
    others = {sort.name for sort in field.sorts if family_of(sort.name) in families}
    text = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    return Effort(
        words=len(text.split()),
        marks=sum(it.picture in field.asked for it in field.placed),
        steps=sum(alike[family] for family in families),
        depth=max(1, len(others) - 1),
        skill="counting",
    )
