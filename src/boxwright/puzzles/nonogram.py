"""A hidden picture: shade squares from the numbers beside them, and figures appear.

Rules, as a pupil plays: each number is a block of shaded squares in its row or column,
in the order of the numbers; between two blocks at least one square stays white. In the
picture stand the figures of the code, dark on light or light on dark.

Proven: `solve` finds every picture that fits the printed numbers, and reads it. A sheet
that is made here has one picture, and never needs a guess. A picture that shows no
figures opens nothing, so it is no answer; two pictures that read alike are one answer.

Limits: four digits or three letters at the most, for the page must hold it at 18 pt with
numbers of 15 pt; blocks are told apart by place alone, so no colour is needed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from pydantic import BaseModel

from boxwright import messages
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.problems import Message, Problem, say
from boxwright.puzzles import nonogram_solver as solver
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
from boxwright.puzzles.figures import DIGITS, LETTERS, Sort
from boxwright.puzzles.nonogram_maker import picture_for
from boxwright.puzzles.nonogram_mistakes import misreadings
from boxwright.puzzles.nonogram_reading import readings
from boxwright.puzzles.shelf import shelf

FACTS = Facts(
    answers=(
        Carries("digits", frozenset(DIGITS), 1, 4),
        Carries("letters", frozenset(LETTERS), 1, 3),
    ),
    ages=(8, 14),
    band_minutes=(5, 25),
    skill=frozenset({"logic"}),
)
RULES = say("nonogram.rules")
EXAMPLE = (3, 1)
NEEDS_EXAMPLE = 13  # groups that are all this old go without the worked line
Knows = NoKnows


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: the drawing in which the figures stand."""

    ground: Literal[
        "auto",
        "bricks",
        "clouds",
        "confetti",
        "hills",
        "rays",
        "rings",
        "stripes",
        "tiles",
        "waves",
        "zigzag",
    ] = "auto"


@frozen_value
class Squares:
    """What is printed: run lengths by row (from the top) and by column (from the left).

    An empty line is `(0,)`. `figures` of one `sort` show, standing on `lines` lines.
    `example` are the run lengths of the worked line, or nothing.
    """

    rows: tuple[tuple[int, ...], ...]
    columns: tuple[tuple[int, ...], ...]
    sort: Sort
    figures: int
    lines: int
    example: tuple[int, ...]


@frozen_value
class Sheet:
    """The one part."""

    sheet: Squares | None = None


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse what is longer or of another alphabet; all else can be made."""
    return None if FACTS.carries(answer) else shelf().cannot_carry("nonogram", answer)


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a sheet whose only picture shows `answer`, solvable line by line."""
    sort: Sort = "digits" if answer.alphabet == "digits" else "letters"
    ground = None if options.ground == "auto" else options.ground
    mould, picture = picture_for(answer.symbols, sort, given.level, ground, dice)
    example = EXAMPLE if given.ages[0] < NEEDS_EXAMPLE else ()
    squares = Squares(
        rows=tuple(picture.across),
        columns=tuple(picture.down),
        sort=sort,
        figures=len(answer.symbols),
        lines=mould.lines,
        example=example,
    )
    return Made(Sheet(squares), NoKnows())


def _squares(sheet: Sheet) -> Squares:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def _pictures(sheet: Sheet) -> Iterator[solver.Found]:
    return solver.pictures(_squares(sheet).rows, _squares(sheet).columns)


def _answers(sheet: Sheet, found: solver.Found) -> list[Answer]:
    """Return what a picture can be read as."""
    squares = _squares(sheet)
    texts = readings(found.grid, squares.sort, squares.figures, squares.lines)
    return [Answer(squares.sort, text) for text in texts]


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every answer that some picture with these numbers can be read as.

    Raises:
        GaveUp: after a bounded number of trials, fillings or readings.
    """
    seen = set()
    for found in _pictures(sheet):
        for answer in _answers(sheet, found):
            if answer not in seen:
                seen.add(answer)
                yield Solution(answer, tuple(_working(found, answer)))


def _working(found: solver.Found, answer: Answer) -> Iterator[Step]:
    for look in found.looks:
        yield Step(say("nonogram.step", line=_line(look), finds=_finds(look)), (_path(look),))
    yield Step(say("nonogram.read", figures=answer.symbols))


def _path(look: solver.Look) -> tuple[str | int, ...]:
    return ("sheet", look.way, look.line)


def _line(look: solver.Look) -> Message:
    return say("nonogram.row" if look.way == "rows" else "nonogram.column", number=look.line + 1)


def _finds(look: solver.Look) -> tuple[Message, ...]:
    dark = (say("nonogram.shade", squares=_spans(look.dark)),) if look.dark else ()
    light = (say("nonogram.leave", squares=_spans(look.light)),) if look.light else ()
    return dark + light


def _spans(places: tuple[int, ...]) -> tuple[Message, ...]:
    """Say places (from 0) as squares (from 1), those in a row together: `2 to 6`."""
    spans: list[list[int]] = []
    for place in places:
        if spans and place == spans[-1][1] + 1:
            spans[-1][1] = place
        else:
            spans.append([place, place])
    return tuple(
        say("nonogram.square", at=first + 1)
        if first == last
        else say("nonogram.span", first=first + 1, last=last + 1)
        for first, last in spans
    )


def describe(sheet: Sheet, part: str) -> Message:
    """Say how large the picture is and what hides in it."""
    squares = _squares(sheet)
    return say(
        "nonogram.describe",
        rows=len(squares.rows),
        columns=len(squares.columns),
        figures=_count(squares),
    )


def _count(squares: Squares) -> Message:
    if squares.sort == "digits":
        return say("nonogram.digits", n=squares.figures)
    return say("nonogram.letters", n=squares.figures)


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return `how` to play, `example` for the worked line, and what to `find`."""
    squares = _squares(sheet)
    empty = any(runs == (0,) for runs in squares.rows + squares.columns)
    return {
        "how": say("nonogram.how-with-empty" if empty else "nonogram.how"),
        "find": say("nonogram.find", figures=_count(squares), order=_order(squares)),
        **({"example": say("nonogram.example")} if squares.example else {}),
    }


def _order(squares: Squares) -> Message:
    if squares.figures == 1:
        return say("nonogram.order-one")
    return say("nonogram.order-line" if squares.lines == 1 else "nonogram.order-lines")


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, list[str]]:
    """Return the picture, a text a row: `#` shaded, `.` white; and the figures found."""
    grid = next(f.grid for f in _pictures(sheet) if solution.answer in _answers(sheet, f))
    return {"rows": list(grid), "figures": list(solution.answer.symbols)}


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Name a way to begin, then the best line to begin with, then what is certain there."""
    looks = next(_pictures(sheet)).looks
    look = max(
        (look for look in looks if look.depth == 1),
        key=lambda look: len(look.dark),
        default=looks[0],
    )
    if look.dark:
        second = say("nonogram.hint-line", line=_line(look))
    else:
        look = next(look for look in looks if look.dark)
        second = say("nonogram.hint-later", line=_line(look))
    return (
        say("nonogram.hint-begin"),
        second,
        say("nonogram.hint-squares", line=_line(look), squares=_spans(look.dark)),
    )


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of reading in the wrong order, turned, or with one square wrong."""
    squares = _squares(sheet)
    grid = next(f.grid for f in _pictures(sheet) if solution.answer in _answers(sheet, f))
    seen = {solution.answer.symbols}
    for symbols, means, noticed in misreadings(
        grid, squares.sort, solution.answer.symbols, squares.lines
    ):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer(squares.sort, symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, squares to shade, looks at lines that tell something, and passes."""
    looks = next(_pictures(sheet)).looks
    text = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    return Effort(
        words=len(text.split()),
        marks=sum(map(sum, _squares(sheet).rows)),
        steps=len(looks),
        depth=max((look.depth for look in looks), default=0),
        skill="logic",
    )
