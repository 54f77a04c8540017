"""Bars in a picture: one fence, shelf or keyboard in it is a bar code that a reader reads.

Rules, as a pupil plays: somewhere in the drawing, upright bars stand side by side that are a
bar code. Find them, hold a bar-code reader on them, and write down what it shows. Bars
beside them or elsewhere in the drawing say nothing.

Proven: `solve` reads the printed widths of every strip of bars, in both directions, by the
published tables of Code 39 and Code 128, and finds one text. The page is read back by a
bar-code reader whenever it is printed. The narrowest bar is at least 0.5 mm, with ten times
its width of white on either side; printed larger or smaller it still reads.

Limits: pupils need a reader, or a telephone or tablet that reads bar codes; many cameras
read only square codes, so the teacher tries it beforehand. A reader is asked for in words on
the page. Two to twelve signs, A to Z and 0 to 9; eight at the most in
Code 39.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from pydantic import BaseModel

from boxwright import messages
from boxwright.dice import Dice
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles.bar_picture_maker import LONGEST, SCENES, code_for, drawn
from boxwright.puzzles.bar_picture_mistakes import miscopies
from boxwright.puzzles.bar_picture_solver import said
from boxwright.puzzles.bar_picture_tables import CAPITALS, DIGITS, Band, Picture, Sheet, Sort
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
    Step,
)
from boxwright.puzzles.shelf import shelf

# One sign alone is guarded by its check sign too weakly: torn or smudged bars misread.
LEAST, MOST = 2, max(LONGEST.values())
FACTS = Facts(
    answers=(
        Carries("digits", frozenset(DIGITS), LEAST, MOST),
        Carries("letters", frozenset(CAPITALS), LEAST, MOST),
        Carries("text", frozenset(CAPITALS + DIGITS), LEAST, MOST),
    ),
    ages=(8, 14),
    band_minutes=(2, 8),
    skill=frozenset({"looking"}),
    uses=frozenset({"pencil", "scanner"}),
    language="words",
)
RULES = say("bar-picture.rules")
ALIKE: dict[Sort, str] = {"digits": DIGITS, "letters": CAPITALS, "text": CAPITALS + DIGITS}
Knows = NoKnows


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: the drawing, and which bar code their readers know."""

    scene: Literal["auto", "garden", "library", "music-room"] = "auto"
    code: Literal["auto", "code-39", "code-128"] = "auto"


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse what is longer or of other signs, and what is too long for the wished bar code."""
    if not FACTS.carries(answer):
        return shelf().cannot_carry("bar-picture", answer)
    if options.code != "auto" and len(answer.symbols) > LONGEST[options.code]:
        return Problem.of(
            "bar-picture.too-long",
            Where("", ("options", "code")),
            found=len(answer.symbols),
            most=LONGEST[options.code],
        )
    return None


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Draw a picture in which one strip of bars says `answer`."""
    sorts: dict[str, Sort] = {"digits": "digits", "letters": "letters", "text": "text"}
    scene = dice.pick(tuple(SCENES)) if options.scene == "auto" else options.scene
    wish = None if options.code == "auto" else options.code
    code = code_for(len(answer.symbols), wish, dice)
    text, sort = "".join(answer.symbols), sorts[answer.alphabet]
    return Made(Sheet(drawn(text, sort, code, scene, given.level, dice)), NoKnows())


class Reading(NamedTuple):
    """A strip, by its numbers, that says something which fits the boxes."""

    band: int
    strip: int
    text: str


def _picture(sheet: Sheet) -> Picture:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def _readings(picture: Picture) -> Iterator[Reading]:
    for band, one in enumerate(picture.bands):
        for strip, bars in enumerate(one.strips):
            for text in said(bars.runs):
                if len(text) == picture.signs and set(text) <= set(ALIKE[picture.sort]):
                    yield Reading(band, strip, text)


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every text that some strip says and that fits the boxes."""
    picture = _picture(sheet)
    seen = set()
    for reading in _readings(picture):
        if reading.text not in seen:
            seen.add(reading.text)
            step = Step(
                say("bar-picture.step", place=_place(picture, reading), text=reading.text),
                (("sheet", "bands", reading.band, "strips", reading.strip),),
            )
            yield Solution(Answer(picture.sort, tuple(reading.text)), (step,))


def codes(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return what a reader must find on the page: each strip that says something, once."""
    return tuple(
        text for band in _picture(sheet).bands for strip in band.strips for text in said(strip.runs)
    )


def _place(picture: Picture, reading: Reading) -> Message:
    """Say where a strip stands: what it is, and which one from the left."""
    band = picture.bands[reading.band]
    where = say(f"bar-picture.band-{len(picture.bands)}-{reading.band + 1}", thing=_thing(band))
    if len(band.strips) == 1:
        return where
    ends = {0: "left", len(band.strips) - 1: "right"}
    side = ends.get(reading.strip, "middle")
    return say(f"bar-picture.strip-{side}", where=where)


def _thing(band: Band) -> Message:
    return say(f"bar-picture.thing-{band.texture}")


def describe(sheet: Sheet, part: str) -> Message:
    """Say what is drawn and how many strips of bars there are."""
    picture = _picture(sheet)
    return say(
        "bar-picture.describe",
        scene=say(f"bar-picture.scene-{picture.scene}"),
        things=tuple(_thing(band) for band in picture.bands),
        n=_strips(picture),
    )


def _strips(picture: Picture) -> int:
    return sum(len(band.strips) for band in picture.bands)


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return `how` to look, what one `need`s, and what to `find`."""
    picture = _picture(sheet)
    hidden = "plain" if _strips(picture) == 1 else "hidden"
    return {
        "how": say(f"bar-picture.how-{hidden}"),
        "need": say("bar-picture.need"),
        "find": say(f"bar-picture.find-{picture.sort}", n=picture.signs),
    }


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Say what a bar code looks like, then how to hold the reader, then where to hold it."""
    picture = _picture(sheet)
    reading = next(one for one in _readings(picture) if tuple(one.text) == solution.answer.symbols)
    return (
        say("bar-picture.hint-look"),
        say("bar-picture.hint-hold"),
        say("bar-picture.hint-place", place=_place(picture, reading)),
    )


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of copying wrongly what the reader shows."""
    picture = _picture(sheet)
    text = "".join(solution.answer.symbols)
    seen = {text}
    for other, means, noticed in miscopies(text, picture.sort):
        if other not in seen:
            seen.add(other)
            yield Mistake(Answer(picture.sort, tuple(other)), means, noticed)


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, object]:
    """Return which strip is ringed on the teacher's key, and what is written in the boxes."""
    reading = next(
        one for one in _readings(_picture(sheet)) if tuple(one.text) == solution.answer.symbols
    )
    return {"band": reading.band, "strip": reading.strip, "signs": list(solution.answer.symbols)}


def effort(sheet: Sheet) -> Effort:
    """Count words to read, signs to write, and strips to try."""
    picture = _picture(sheet)
    text = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    return Effort(
        words=len(text.split()),
        marks=picture.signs,
        steps=_strips(picture),
        depth=1,
        skill="looking",
    )
