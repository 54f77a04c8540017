"""Fence signs: each sign is the piece of fence around a letter, with or without a dot.

Rules, as a pupil plays: the key shows four fences with a letter in every cell: two grids
and two crosses, one of each with dots. The lines around a letter, and the dot beside it,
are its sign. Find each sign's piece in the key and write down its letter. From the second
level on, cells of the key are empty; they are filled in by the rule that stands there.
A code of figures has figures in its fences, each in two or three cells.

Proven: `solve` fills the key in by its rule, in every way that agrees with what is
printed, looks every sign up in every fence, and yields each text that comes of it. The
sign of a letter is one cell of one fence, so that a whole key gives one text.

Limits: several orders of letters are in use and none is the usual one, so the key is
always printed. Without it `solve` tries the alphabet in the two common orders of fences,
from every letter on; more orders could be thought of. Whoever knows the order from A may
read the two easier levels without the key. Ten letters or six figures at the most.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal, get_args

from pydantic import BaseModel

from boxwright import messages
from boxwright.dice import Dice
from boxwright.problems import Message, Problem, Where, say
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
from boxwright.puzzles.pigpen_fences import PLACES, SYMBOLS, Carried, Key, Row, Sheet, Sign
from boxwright.puzzles.pigpen_maker import sheet_for
from boxwright.puzzles.pigpen_mistakes import misreadings
from boxwright.puzzles.pigpen_reading import keys_of, readings
from boxwright.puzzles.shelf import shelf

__all__ = ["Sheet"]

FACTS = Facts(
    answers=(
        Carries("letters", frozenset(SYMBOLS["letters"]), 1, 10),
        Carries("text", frozenset(SYMBOLS["text"]), 1, 10),
        Carries("digits", frozenset(SYMBOLS["digits"]), 1, 6),
    ),
    ages=(7, 14),
    band_minutes=(3, 12),
    skill=frozenset({"codes", "looking"}),
    parts=(Part("sheet"), Part("key", apart=True)),
    prints_symbols=True,
)
RULES = say("pigpen.rules")
Knows = NoKnows
LONGEST_KEYWORD = 13


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: the order of the fences, and a word that the key begins with."""

    order: Literal["auto", "grids-first", "in-turn"] = "auto"
    keyword: str = ""


def _keyword(options: Options) -> str:
    """Return each letter of the keyword once, as the key begins with them."""
    return "".join(dict.fromkeys(options.keyword.strip().upper()))


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse what is too long or of other signs, and a keyword that is none."""
    if not FACTS.carries(answer):
        return shelf().cannot_carry("pigpen", answer)
    where, keyword = Where("", ("options", "keyword")), _keyword(options)
    if keyword and answer.alphabet == "digits":
        return Problem.of("pigpen.keyword-for-digits", where, keyword=options.keyword)
    if not set(keyword) <= set(SYMBOLS["letters"]):
        return Problem.of("pigpen.keyword-signs", where, keyword=options.keyword)
    if len(keyword) > LONGEST_KEYWORD:
        return Problem.of(
            "pigpen.keyword-long", where, keyword=options.keyword, most=LONGEST_KEYWORD
        )
    return None


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make the signs for `answer`, and the key."""
    carries = next(name for name in get_args(Carried) if name == answer.alphabet)
    order = "" if options.order == "auto" else options.order
    keyword = _keyword(options)
    return Made(sheet_for(answer.symbols, carries, keyword, order, given.level, dice), NoKnows())


def _row(sheet: Sheet) -> Row:
    assert sheet.sheet is not None, "the signs are always there"
    return sheet.sheet


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every text that the signs can be read as.

    Raises:
        GaveUp: after a bounded number of readings.
    """
    row = _row(sheet)
    for symbols, _ in readings(row, sheet.key):
        steps = (
            Step(
                say("pigpen.step", number=at + 1, piece=_piece(sign), symbol=symbols[at]),
                (("sheet", "signs", at),),
            )
            for at, sign in enumerate(row.signs)
        )
        yield Solution(Answer(row.carries, symbols), tuple(steps))


def _piece(sign: Sign) -> Message:
    """Say where the piece of fence is that a sign shows: `top left of the grid with dots`."""
    return say(
        "pigpen.piece-dots" if sign.dot else "pigpen.piece",
        place=_place(sign),
        fence=say(f"pigpen.fence-{sign.shape}"),
    )


def _place(sign: Sign) -> Message:
    places = PLACES[sign.shape]
    return say(f"pigpen.place-{places[sign.cell] if sign.cell < len(places) else 'none'}")


def describe(sheet: Sheet, part: str) -> Message:
    """Say each sign by its piece of fence, or what stands where in the key."""
    if part == "sheet":
        signs = _row(sheet).signs
        return say("pigpen.describe", n=len(signs), signs=tuple(map(_piece, signs)))
    fences = sheet.key.fences if sheet.key else ()
    return say(
        "pigpen.describe-key",
        fences=tuple(
            say(
                "pigpen.cell" if cell else "pigpen.cell-empty",
                piece=_piece(Sign(fence.shape, at, fence.dot)),
                symbol=cell,
            )
            for fence in fences
            for at, cell in enumerate(fence.cells)
        ),
    )


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return how to read the signs; on the key, an `example` and how to `fill` it in."""
    what = "figures" if _row(sheet).carries == "digits" else "letters"
    if part == "sheet":
        named = "text" if _row(sheet).carries == "text" else what
        return {"how": say(f"pigpen.how-{what}"), "find": say(f"pigpen.find-{named}")}
    rule = sheet.key.rule if sheet.key else "whole"
    return {
        "how": say(f"pigpen.key-{what}"),
        "example": say("pigpen.example"),
        **({} if rule == "whole" else {"fill": say(f"pigpen.rule-{rule}-{what}")}),
    }


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the letters that the key shows."""
    if part != "key" or sheet.key is None:
        return ()
    return tuple(cell for fence in sheet.key.fences for cell in fence.cells if cell)


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, Any]:
    """Return what fills the boxes, and the whole key fence by fence."""
    written = next((w for s, w in readings(_row(sheet), sheet.key) if s == solution.answer.symbols))
    return {
        "boxes": list(solution.answer.symbols),
        "fences": [list(fence.cells) for fence in written],
    }


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Tell what a sign is, then how the key goes on, then where one sign's piece is."""
    row, key = _row(sheet), sheet.key
    what = "figures" if row.carries == "digits" else "letters"
    at = len(row.signs) // 2
    dots = any(sign.dot for sign in row.signs)
    second = say("pigpen.hint-dots" if dots else "pigpen.hint-plain")
    if key is not None and key.rule != "whole":
        second = say(f"pigpen.rule-{key.rule}-{what}")
    return (
        say("pigpen.hint-sign"),
        second,
        say("pigpen.hint-place", number=at + 1, piece=_piece(row.signs[at])),
    )


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of overlooked dots, of another key, and of turning the sheet."""
    row = _row(sheet)
    written = next(keys_of(sheet.key, row.carries))
    seen = {solution.answer.symbols}
    for symbols, means, noticed in misreadings(row, written, solution.answer.symbols):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer(row.carries, symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, letters to write, cells to fill in, and what rests on what.

    A cell that is filled in by looking back at others counts twice.
    """
    row, key = _row(sheet), sheet.key
    parts = ("sheet", "key") if key else ("sheet",)
    text = " ".join(messages.words(it) for part in parts for it in words(sheet, part).values())
    empty = len(_empty(key)) if key else 0
    looks_back = key is not None and key.rule in ("rest", "again")
    return Effort(
        words=len(text.split()),
        marks=len(row.signs) + empty,
        steps=len(row.signs) + empty * (2 if looks_back else 1),
        depth=1 + (empty > 0) + looks_back,
        skill="codes",
    )


def _empty(key: Key) -> list[str]:
    return [cell for fence in key.fences for cell in fence.cells if not cell]
