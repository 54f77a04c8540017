"""The teacher's own page: text, a picture, or something in the room that is only spoken of.

Rules, as a pupil plays: whatever the page says. Nothing is proven: that it leads to the
code, and to it alone, is the teacher's word, and the checks say so. The lock's code must
be a fixed one, for a page that is written by hand cannot follow a code that is drawn.
Why the code is the answer (`because`) stands on the teacher's pages alone. In the page's foot
are empty boxes for the code, one for each of its signs, unless `boxes` is false.

Limits: one page; what does not fit on it is refused when it is printed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, get_args

from pydantic import BaseModel, Field, StringConstraints

from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles.contract import (
    PICTURES,
    Alphabet,
    Answer,
    Carries,
    Effort,
    Facts,
    Given,
    Made,
    Mistake,
    Solution,
    Step,
)

ALPHABETS: tuple[Alphabet, ...] = get_args(Alphabet)
Paragraph = Annotated[str, StringConstraints(min_length=1, max_length=2000)]

FACTS = Facts(
    answers=tuple(Carries(alphabet, None, 1, 24) for alphabet in ALPHABETS),
    ages=(5, 99),
    band_minutes=(2, 10),
    skill=frozenset({"reading"}),
    uses=frozenset(),
    language="words",
    basis="declared",
    prints_symbols=True,
    own=True,
)
RULES = say("own-sheet.rules")


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What stands on the page; `said` alone prints none, and is read on the set-up card.

    `because` is for the teacher alone, in key and debrief: why the code is the answer.
    `boxes` are empty ones to write the code into; a picture may have its own.
    """

    text: tuple[Paragraph, ...] = ()
    picture: str | None = Field(default=None, json_schema_extra=PICTURES)
    alt: Paragraph | None = None
    said: Paragraph | None = None
    boxes: bool = True
    because: tuple[Paragraph, ...] = ()


@frozen_value
class Own:
    """Paragraphs, a picture with its width over its height, and how many boxes to write into."""

    paragraphs: tuple[str, ...]
    picture: str | None
    ratio: float
    alt: str
    boxes: int = 0


@frozen_value
class Sheet:
    """The one part; none where the clue is something in the room."""

    sheet: Own | None = None


@frozen_value
class Knows:
    """What the teacher declares the page to lead to, what is only spoken of, and why."""

    alphabet: Alphabet
    declared: tuple[str, ...]
    said: str
    because: tuple[str, ...] = ()


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse a page with nothing on it, a picture that is not there or is not described."""
    if not (options.text or options.picture or options.said):
        return Problem.of("own-sheet.empty", Where("", ("options",)))
    if options.picture is not None and options.picture not in given.pictures:
        where = Where("", ("options", "picture"))
        choices = tuple(given.pictures) or (say("own-sheet.no-pictures"),)
        return Problem.of("own-sheet.no-picture", where, name=options.picture, choices=choices)
    if options.picture is not None and options.alt is None:
        return Problem.of("own-sheet.no-alt", Where("", ("options",)), name=options.picture)
    return None


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Put the teacher's page together; nothing is drawn by chance."""
    own = None
    if options.text or options.picture:
        width, height = given.pictures.get(options.picture or "", (1.0, 1.0))
        ratio = round(width / height, 4)
        alt, boxes = options.alt or "", _boxes(answer) if options.boxes else 0
        own = Own(options.text, options.picture, ratio, alt, boxes)
    said = options.said or ""
    return Made(Sheet(own), Knows(answer.alphabet, answer.symbols, said, options.because))


def _boxes(answer: Answer) -> int:
    """Return how many boxes a code is written into: none where it is a place to point at."""
    return 0 if answer.alphabet == "place" else len(answer.symbols)


def solve(sheet: Sheet, knows: Knows) -> Iterator[Solution]:
    """Yield what is declared, on the teacher's word: no computation reads such a page."""
    why = tuple(Step(say("own-sheet.because", text=text)) for text in knows.because)
    working = (*why, Step(say("own-sheet.declared")))
    yield Solution(Answer(knows.alphabet, knows.declared), working)


def describe(sheet: Sheet, part: str) -> Message:
    """Say what the picture shows, in the teacher's words."""
    own = sheet.sheet
    if own is None or own.picture is None:
        return say("own-sheet.describe-text")
    return say("own-sheet.describe-picture", alt=own.alt)


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return nothing: the page speaks for itself."""
    return {}


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the paragraphs."""
    return sheet.sheet.paragraphs if sheet.sheet is not None else ()


def pictures(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the picture's name."""
    own = sheet.sheet
    return (own.picture,) if own is not None and own.picture is not None else ()


def hints(sheet: Sheet, knows: Knows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give what can be said of any page; the teacher's own hints go before."""
    where = "page" if sheet.sheet is not None else "room"
    return (
        say(f"own-sheet.hint-look-{where}"),
        say("own-sheet.hint-talk"),
        say(f"own-sheet.hint-start-{where}"),
    )


def mistakes(sheet: Sheet, knows: Knows, solution: Solution) -> Iterator[Mistake]:
    """Yield none: what goes wrong with such a page, only its writer can say."""
    yield from ()


def effort(sheet: Sheet) -> Effort:
    """Count the words to read and the boxes to fill."""
    paragraphs, boxes = (sheet.sheet.paragraphs, sheet.sheet.boxes) if sheet.sheet else ((), 0)
    count = sum(len(paragraph.split()) for paragraph in paragraphs)
    return Effort(words=count, marks=boxes, steps=1, depth=1, skill="reading")
