"""A grid to shade by a rule: each cell is decided by itself, and figures appear.

Rules, as a pupil plays: shade every cell that fits the rule, and no other. With a table of
statements, these are listed with numbers; decide once about each, then shade all cells with
the numbers of those that fit. With a number rule, the numbers in the cells are themselves
held against it. The shaded cells show the figures of the code, and stray cells around them.

Declared: with statements, which of them fit is the teacher's word, and pupils bring it
along. Computed: number rules (`basis` tells which a sheet is). Proven, given that: the
grid reads as one code and no other; where it is not known of a statement whether it fits,
`solve` tries both ways and yields all codes.

Limits: four digits or three letters, on at most 21 columns, which two-digit numbers need in
large print; so number rules go from 1 to 99. A statement stands on one line, and where
long ones leave too little room for the list, shorter ones are drawn instead. A table says
in its own words what contradicts: only rows that read alike are compared.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from boxwright import messages
from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.problems import Message, Problem, say
from boxwright.puzzles.contract import (
    Answer,
    Carries,
    Effort,
    Facts,
    Given,
    Made,
    Mistake,
    Need,
    Solution,
    Step,
)
from boxwright.puzzles.figures import DIGITS, LETTERS, Sort
from boxwright.puzzles.shade_by_rule_content import FEWEST, drawn_rows, faults, rows_of
from boxwright.puzzles.shade_by_rule_judging import Shaded, judgements, shadings
from boxwright.puzzles.shade_by_rule_maker import Picture, dealt, picture_for
from boxwright.puzzles.shade_by_rule_mistakes import misreadings
from boxwright.puzzles.shade_by_rule_numbers import drawn_numbers, usual_n
from boxwright.puzzles.shade_by_rule_sheet import Fact, Knows, NumberRule, Sheet, Squares
from boxwright.puzzles.shade_by_rule_wishes import Options, clash
from boxwright.puzzles.shade_by_rule_words import figures, spans, words_of
from boxwright.puzzles.shade_by_rule_words import rule as rule_of
from boxwright.puzzles.shelf import shelf

__all__ = ["Knows", "Options", "Sheet"]

FACTS = Facts(
    answers=(
        Carries("digits", frozenset(DIGITS), 1, 4),
        Carries("letters", frozenset(LETTERS), 1, 3),
    ),
    ages=(7, 14),
    band_minutes=(5, 20),
    skill=frozenset({"knowledge", "looking"}),
    content=(Need("statements", 2 * FEWEST, ("statement", "true")),),
    language="words",
    basis="declared",
)
RULES = say("shade-by-rule.rules")
STATEMENTS = {"easier": 8, "ordinary": 14, "harder": 20, "hardest": 30}
ROOM = 18  # lines of a list that, with the rows of the grid, fill a page in large print


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse what is longer or of another alphabet, rules that clash, and a table with faults."""
    if not FACTS.carries(answer):
        return shelf().cannot_carry("shade-by-rule", answer)
    table = given.content.tables.get("statements")
    problem = clash(options, table is not None)
    if problem is not None or table is None:
        return problem
    return next(faults(table), None)


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a sheet whose shaded cells show `answer`."""
    sort: Sort = "digits" if answer.alphabet == "digits" else "letters"
    listed = options.number_rule == "none"
    picture = picture_for(answer.symbols, sort, given.level, listed, dice)
    if options.number_rule == "none":
        return _listed(picture, options.rule, given, dice)
    return _numbered(picture, options.number_rule, options.n, given.level, dice)


def _listed(picture: Picture, rule: str, given: Given, dice: Dice) -> Made:
    """Return a sheet with a list of the teacher's statements."""
    room = ROOM - len(picture.dark)
    wanted = min(STATEMENTS[given.level], picture.shaded)
    rows = rows_of(given.content.tables["statements"])
    drawn = drawn_rows(rows, wanted, room, given.level, dice.child("list"))
    facts = tuple(sorted((row.statement, row.fits) for row in drawn))
    squares = Squares(
        rule=" ".join(rule.split()),
        number_rule=None,
        n=None,
        statements=tuple(row.statement for row in drawn),
        cells=dealt(
            picture,
            [at for at, row in enumerate(drawn, start=1) if row.fits],
            [at for at, row in enumerate(drawn, start=1) if not row.fits],
            dice,
        ),
        sort=picture.sort,
        figures=picture.figures,
        lines=picture.lines,
    )
    return Made(Sheet(squares), Knows(tuple(Fact(*fact) for fact in facts)))


def _numbered(picture: Picture, rule: NumberRule, n: int | None, level: Level, dice: Dice) -> Made:
    """Return a sheet whose cells hold numbers that fit a rule or do not."""
    n = usual_n(rule, level, dice.child("n")) if n is None else n
    fits, others = drawn_numbers(rule, n or 0, level, dice.child("numbers"))
    squares = Squares(
        rule=None,
        number_rule=rule,
        n=n,
        statements=(),
        cells=dealt(picture, fits, others, dice),
        sort=picture.sort,
        figures=picture.figures,
        lines=picture.lines,
    )
    return Made(Sheet(squares), Knows())


def _squares(sheet: Sheet) -> Squares:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def solve(sheet: Sheet, knows: Knows) -> Iterator[Solution]:
    """Yield every answer that the shaded grid can be read as, as far as it is known what fits.

    Raises:
        GaveUp: after a bounded number of judgements or readings.
    """
    squares = _squares(sheet)
    seen = set()
    for shaded in shadings(squares, knows):
        for text in shaded.texts:
            if text not in seen:
                seen.add(text)
                yield Solution(Answer(squares.sort, text), tuple(_working(squares, shaded, text)))


def _working(squares: Squares, shaded: Shaded, text: tuple[str, ...]) -> Iterator[Step]:
    """Yield what fits, the cells to shade row by row, and the reading."""
    for number, statement in enumerate(squares.statements, start=1):
        if number in shaded.fits:
            says = say("shade-by-rule.step-fits", number=number, statement=statement)
            yield Step(says, (("sheet", "statements", number - 1),))
    for y, row in enumerate(shaded.grid):
        if "#" in row:
            columns = spans([x for x, sign in enumerate(row) if sign == "#"])
            says = say("shade-by-rule.step-row", row=y + 1, columns=columns)
            yield Step(says, (("sheet", "cells", y),))
    yield Step(say("shade-by-rule.step-read", figures=text))


def _shaded(sheet: Sheet, knows: Knows, solution: Solution) -> Shaded:
    """Return the grid that reads as `solution`."""
    text = solution.answer.symbols
    return next(one for one in shadings(_squares(sheet), knows) if text in one.texts)


def basis(sheet: Sheet) -> Literal["computed", "declared"]:
    """Tell whether the answer rests on the teacher's word, or on a number rule alone."""
    return "computed" if _squares(sheet).number_rule is not None else "declared"


def describe(sheet: Sheet, part: str) -> Message:
    """Say how large the grid is, and what stands in its cells."""
    squares = _squares(sheet)
    how = "statements" if squares.statements else "numbers"
    return say(
        f"shade-by-rule.describe-{how}",
        rows=len(squares.cells),
        columns=len(squares.cells[0]),
        statements=len(squares.statements),
        rule=rule_of(squares),
        figures=figures(squares),
    )


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return `how` to go about it, the `rule`, which way is `up`, and what to `find`."""
    return words_of(_squares(sheet))


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the statements, which the page must show."""
    return _squares(sheet).statements


def solved(sheet: Sheet, knows: Knows, solution: Solution) -> dict[str, Any]:
    """Return the grid (`#` shaded), the numbers that fit, and the figures found."""
    shaded = _shaded(sheet, knows, solution)
    return {
        "rows": list(shaded.grid),
        "fits": sorted(shaded.fits),
        "figures": list(solution.answer.symbols),
    }


def hints(sheet: Sheet, knows: Knows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give a way to work, then how many fit or how to test, then what is certain in one place."""
    squares, shaded = _squares(sheet), _shaded(sheet, knows, solution)
    row, columns = _clearest_row(shaded, solution.answer)
    third = say("shade-by-rule.hint-row", row=row, columns=columns)
    if not squares.statements:
        test = say(f"shade-by-rule.test-{squares.number_rule}", number=squares.n or 0)
        return say("shade-by-rule.hint-numbers"), test, third
    second = say("shade-by-rule.hint-count", n=len(shaded.fits), all=len(squares.statements))
    return say("shade-by-rule.hint-statements"), second, third


def _clearest_row(shaded: Shaded, answer: Answer) -> tuple[int, tuple[Message, ...]]:
    """Return a row with a long stroke of a figure, but none whose numbers spell the answer."""
    code = "".join(answer.symbols)
    rows = sorted(enumerate(shaded.grid), key=lambda it: -max(map(len, it[1].split("."))))
    found = [(y + 1, [x for x, sign in enumerate(row) if sign == "#"]) for y, row in rows]
    told = [(y, spans(places)) for y, places in found if places]
    return next((it for it in told if not _spells(it, code)), told[0])


def _spells(row: tuple[int, tuple[Message, ...]], code: str) -> bool:
    y, columns = row
    numbers = "".join(f"{value}" for one in columns for value in one.args.values())
    text = f"{y}{numbers}"
    return len(code) > 2 and (code in text or code[::-1] in text)


def mistakes(sheet: Sheet, knows: Knows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of another order, a number judged wrongly, a turned page, one cell off."""
    squares = _squares(sheet)
    seen = {solution.answer.symbols}
    shaded = _shaded(sheet, knows, solution)
    for symbols, means, noticed in misreadings(squares, shaded, solution.answer.symbols):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer(squares.sort, symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, cells to shade, and what must be decided or looked up.

    With statements, the sheet does not tell how many cells are shaded; three in ten are
    taken, the mean of 120 sheets made at random.
    """
    squares = _squares(sheet)
    said = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    read = len(" ".join((said, *squares.statements)).split())
    cells = sum(map(len, squares.cells))
    if squares.statements:
        steps = len(squares.statements) + cells
        return Effort(read, marks=round(0.3 * cells), steps=steps, depth=2, skill="knowledge")
    fits = next(judgements(squares, Knows()))
    marks = sum(number in fits for row in squares.cells for number in row)
    return Effort(read, marks=marks, steps=cells, depth=1, skill="counting")
