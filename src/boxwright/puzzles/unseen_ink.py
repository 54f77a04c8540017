"""Dots that show under an ultraviolet torch: count the pictures that are marked.

Rules, as a pupil plays: shine the torch on the frame, never at eyes. Some pictures have a
dot, close to them and nearer to them than to any other. Under the frame stand pictures,
each beside a blank box: count how many of each have a dot. The numbers, from left to
right, are the code. The dots may be on another clue's sheet; then a card asks for them.

Proven: `solve` gives each dot to the picture that it is nearest to, by 2 mm at the least,
and counts. What it reads are the dots of the guide, for these are what a teacher traces;
a guide that shows another field or other dots gives no answer. Without the ink every
count from one up is possible, so the sheet alone opens nothing.

Limits: whether ink, paper and torch work together, and whether every dot was traced, is
for the teacher to try; the guide says so. No nought, and nine at the most. On another
clue's sheet only pictures with room beside them can be marked, and one of each asked sort
stays without a dot, so that counting all of them never opens the lock.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from boxwright import messages
from boxwright.dice import Dice
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
from boxwright.puzzles.drawn import is_own, picture_said
from boxwright.puzzles.picture_field import Field
from boxwright.puzzles.picture_hints import place_said
from boxwright.puzzles.picture_wishes import Wishes, digits_refused, wishes_refused
from boxwright.puzzles.unseen_ink_host import host_refused, on_host
from boxwright.puzzles.unseen_ink_maker import least_pictures, on_own_sheet
from boxwright.puzzles.unseen_ink_mistakes import misreadings
from boxwright.puzzles.unseen_ink_parts import Card, Sheet
from boxwright.puzzles.unseen_ink_reading import Marked, guesses, shown_codes

__all__ = ["Sheet"]

FACTS = Facts(
    answers=(Carries("digits", frozenset("123456789"), 1, 4),),
    ages=(7, 14),
    band_minutes=(4, 15),
    skill=frozenset({"counting", "looking"}),
    uses=frozenset({"pencil", "torch"}),
    parts=(Part("sheet"), Part("ink", "ink"), Part("guide", "teacher")),
)
RULES = say("unseen-ink.rules")
Knows = NoKnows


class Options(Wishes, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: how many pictures, which family, or which of their own."""


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse noughts and longer codes, wrong pictures, and a sheet that cannot take the dots."""
    problem = digits_refused("unseen-ink", FACTS, answer)
    if problem is not None:
        return problem
    if given.host is not None:
        return host_refused(answer, options, given)
    return wishes_refused(options, given, len(answer.symbols), least_pictures(answer, options))


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make the sheet, or the card for a sheet that is there already, with its ink and guide."""
    if given.host is not None:
        return Made(on_host(answer, given, dice), NoKnows())
    return Made(on_own_sheet(answer, options, given, dice), NoKnows())


def _asked(sheet: Sheet) -> tuple[str, ...]:
    assert sheet.sheet is not None, "pupils always get a sheet or a card"
    return sheet.sheet.asked


def _field(sheet: Sheet) -> Field | None:
    """Return the field that pupils look at, as far as it is known."""
    if isinstance(sheet.sheet, Card):
        return sheet.guide.field if sheet.guide else None
    return sheet.sheet


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every code that the dots may show; without ink, every code that is possible.

    Raises:
        GaveUp: where there are too many ways to read the dots.
    """
    field = _field(sheet)
    if field is None or _contradicts(sheet, field):
        return
    if sheet.ink is None:
        for numbers in guesses(field, _asked(sheet)):
            yield Solution(_answer(numbers))
        return
    for numbers, pictures in shown_codes(field, _asked(sheet), sheet.ink.dots).items():
        yield Solution(_answer(numbers), tuple(_working(sheet, field, pictures)))


def _contradicts(sheet: Sheet, field: Field) -> bool:
    """Tell whether a teacher who traces the guide would not get this sheet with this ink."""
    if sheet.guide is None:
        return False
    other_frame = sheet.ink and (sheet.ink.width, sheet.ink.height) != (field.width, field.height)
    other_dots = sheet.ink and sheet.ink.dots != sheet.guide.dots
    return sheet.guide.field != field or bool(other_frame) or bool(other_dots)


def _answer(numbers: tuple[int, ...]) -> Answer:
    return Answer("digits", tuple(map(str, numbers)))


def _working(sheet: Sheet, field: Field, pictures: Marked) -> Iterator[Step]:
    base = ("guide", "field") if isinstance(sheet.sheet, Card) else ("sheet",)
    for name in dict.fromkeys(_asked(sheet)):
        numbers = [at for at in sorted(pictures) if field.placed[at].picture == name]
        at = tuple((*base, "placed", number) for number in numbers)
        said = say("unseen-ink.step", n=len(numbers), picture=picture_said(name))
        yield Step(said, at)


def describe(sheet: Sheet, part: str) -> Message:
    """Say what is asked for, or what the part is; how many are marked would be the answer."""
    asked = tuple(picture_said(name) for name in _asked(sheet))
    if part == "sheet" and isinstance(sheet.sheet, Card):
        return say("unseen-ink.describe-card", asked=asked)
    return say(f"unseen-ink.describe-{part}", asked=asked)


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return how pupils go about it, or how a teacher traces."""
    if part == "ink":
        return {}
    card = isinstance(sheet.sheet, Card)
    if part == "guide":
        dots = len(sheet.guide.dots) if sheet.guide else 0
        return {
            "lay": say("unseen-ink.lay-host" if card else "unseen-ink.lay"),
            "trace": say("unseen-ink.trace", n=dots),
            "try": say("unseen-ink.try"),
            "care": say("unseen-ink.care"),
            "ruler": say("unseen-ink.ruler"),
        }
    find = say("unseen-ink.find-card" if card else "unseen-ink.find")
    return {
        "how": say("unseen-ink.how-card" if card else "unseen-ink.how"),
        "find": say("unseen-ink.find-one") if len(_asked(sheet)) == 1 else find,
    }


def pictures(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the names of the teacher's own pictures on a part."""
    shown: Any = {"sheet": sheet.sheet, "guide": sheet.guide and sheet.guide.field}.get(part)
    return tuple(sort.name for sort in shown.sorts if is_own(sort.name)) if shown else ()


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, Any]:
    """Return what fills the boxes, and for each placed picture its box's number, or 0."""
    boxes = {
        path[-1]: number
        for number, step in enumerate(solution.working, 1)
        for path in step.at
        if path[0] == "sheet"
    }
    placed = sheet.sheet.placed if isinstance(sheet.sheet, Field) else ()
    return {
        "counts": list(solution.answer.symbols),
        "boxes": [boxes.get(number, 0) for number in range(len(placed))],
    }


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give a way to look, then which dots count, then how many lie in a part of the frame."""
    field = _field(sheet)
    assert field is not None, "a sheet with a solution has a field"
    name, step = max(
        zip(dict.fromkeys(_asked(sheet)), solution.working, strict=True),
        key=lambda pair: len(pair[1].at),
    )
    numbers = [int(path[-1]) for path in step.at]
    count, place = place_said(field, numbers)
    return (
        say("unseen-ink.hint-look"),
        say("unseen-ink.hint-which", picture=picture_said(name)),
        say("unseen-ink.hint-place", n=count, picture=picture_said(name), place=place),
    )


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of counting without the torch, of overlooked dots, and of the order."""
    field = _field(sheet)
    assert field is not None, "a sheet with a solution has a field"
    seen = {solution.answer.symbols}
    for symbols, means, noticed in misreadings(field, _asked(sheet), solution.answer.symbols):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer("digits", symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, dots to tick, dots to look at, and sorts that must be told apart."""
    field = _field(sheet)
    placed = field.placed if field else ()
    amounts = Counter(it.picture for it in placed)
    text = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    dots = len(sheet.ink.dots) if sheet.ink else 0
    return Effort(
        words=len(text.split()),
        marks=dots,
        steps=dots + len(placed),
        depth=max(1, len(amounts) - 1),
        skill="counting",
    )
