"""A logic grid: find out from statements what goes together, and read the code off.

Rules, as a pupil plays: each thing of one list goes with one thing of every other list.
The statements say enough. In the crossed table a cross stands where two things cannot go
together, a tick where they do. In one block the squares hold figures (digits, letters,
colours); the ticked one of each name is written down, in the order that the sheet gives.

Proven: `solve` finds every arrangement that fits the printed statements, and what each
reads as. A sheet that is made here has one arrangement, no statement that the others could
do without, and a working that never needs a guess.

Limits: three to five members in each list, so codes of up to five; three lists, or four of
three members each. Colours and signs are printed by their first letters, with a legend.
With the teacher's own words sentences set these in quotes and say 'goes with', since words
may be anything. Only one list can be in an order. Columns `goal` and `level` are not used.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any, Literal

from pydantic import BaseModel

from boxwright import messages
from boxwright.dice import Dice
from boxwright.frozen import frozen_value
from boxwright.problems import Message, Problem, Where, say
from boxwright.puzzles import logic_grid_content as own_content
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
from boxwright.puzzles.logic_grid_figures import DIGITS, filled
from boxwright.puzzles.logic_grid_forms import Arrangement, Category, Puzzle
from boxwright.puzzles.logic_grid_maker import WISHES, Wish, chosen
from boxwright.puzzles.logic_grid_mistakes import misreadings
from boxwright.puzzles.logic_grid_room import room_for
from boxwright.puzzles.logic_grid_scenes import SCENES, categories_of
from boxwright.puzzles.logic_grid_solver import arrangements, read
from boxwright.puzzles.logic_grid_steps import hints_of, steps_of
from boxwright.puzzles.logic_grid_words import page_words
from boxwright.puzzles.logic_grid_working import work
from boxwright.puzzles.shelf import shelf

LETTERS = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
FACTS = Facts(
    answers=(
        Carries("digits", frozenset(DIGITS), 1, 5),
        Carries("letters", LETTERS, 1, 5),
        Carries("faces", None, 1, 5),
    ),
    ages=(8, 14),
    band_minutes=(5, 25),
    skill=frozenset({"logic", "reading"}),
    language="words",
    prints_symbols=True,
)
RULES = say("logic-grid.rules")
MOST_THROWS = 60
Knows = NoKnows


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose.

    `scene` is one of our own; with the teacher's categories there is none. `ordered` names
    the category whose members stand in an order in the table, so that statements may say
    'before'. `faces` are more colours or signs of the lock's wheels, to stand in squares that
    are not part of the code.
    """

    scene: Literal["auto", "hut", "boats", "fields", "colours"] = "auto"
    ordered: str = ""
    faces: tuple[str, ...] = ()


@frozen_value
class Sheet:
    """The one part."""

    sheet: Puzzle | None = None


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse other alphabets, categories that are too small or unclear, and a lone colour."""
    if not FACTS.carries(answer):
        return shelf().cannot_carry("logic-grid", answer)
    table = own_content.table_of(given)
    if table is not None:
        for problem in own_content.faults(table, options.ordered, answer):
            return problem
        if options.scene != "auto":
            return Problem.of("logic-grid.scene-too", Where("", ("options", "scene")))
    elif given.content.tables:
        found = tuple(given.content.tables)
        return Problem.of("logic-grid.no-categories", Where("", ("content",)), found=found)
    elif options.ordered:
        return Problem.of("logic-grid.order-of-nothing", Where("", ("options", "ordered")))
    if answer.alphabet == "faces" and len(_faces(answer, options, given)) < 2:
        where = Where("", ("options", "faces"))
        return Problem.of("logic-grid.lone-face", where, face=answer.symbols[0])
    return None


def _faces(answer: Answer, options: Options, given: Given) -> tuple[str, ...]:
    """Return the faces that may stand in squares: all that are known of the lock's."""
    known = [*answer.symbols, *options.faces]
    table = own_content.table_of(given)
    for members in own_content.by_category(table).values() if table else ():
        if set(answer.symbols) <= {member.lower() for member in members}:
            known += [member.lower() for member in members]
    return tuple(dict.fromkeys(known))


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a sheet whose only arrangement reads as `answer`."""
    wish = WISHES[given.level]
    scene, categories = _categories(answer, options, given, wish, dice.child("categories"))
    faces = _faces(answer, options, given) if answer.alphabet == "faces" else ()
    sort: Any = answer.alphabet
    puzzle = Puzzle(scene, categories, (), sort, (), ())
    arrangement, puzzle = _with_figures(puzzle, answer, faces, dice.child("figures"))
    room = room_for(categories, sort)
    statements = chosen(categories, arrangement, wish, room, dice.child("statements"))
    return Made(Sheet(replace(puzzle, statements=statements)), NoKnows())


def _categories(
    answer: Answer, options: Options, given: Given, wish: Wish, dice: Dice
) -> tuple[Any, tuple[Category, ...]]:
    table = own_content.table_of(given)
    if table is not None:
        size = own_content.size_for(table, wish.members, answer)
        return "own", own_content.categories_from(table, options.ordered, size, dice)
    scene = dice.pick(SCENES) if options.scene == "auto" else options.scene
    size = max(wish.members, own_content.least_size(answer))
    return scene, categories_of(scene, size, dice)


def _with_figures(
    puzzle: Puzzle, answer: Answer, faces: tuple[str, ...], dice: Dice
) -> tuple[Arrangement, Puzzle]:
    """Draw what goes together and who is read, so that no line of figures gives the code away.

    Where that cannot be had (a code of one face over and over), the last throw stands.
    """
    for throw in range(MOST_THROWS):
        own = dice.child(throw)
        found = _thrown(puzzle, answer, faces, own, anyhow=throw == MOST_THROWS - 1)
        if found is not None:
            return found
    raise AssertionError("the last throw always stands")


def _thrown(
    puzzle: Puzzle, answer: Answer, faces: tuple[str, ...], dice: Dice, *, anyhow: bool
) -> tuple[Arrangement, Puzzle] | None:
    """Return one throw, or None if its figures give the code away and that matters."""
    size = len(puzzle.categories[0].members)
    members = range(size)
    base = next((at for at, one in enumerate(puzzle.categories) if one.ordered), 0)
    arrangement = tuple(
        tuple(members) if at == base else tuple(dice.shuffled(members))
        for at in range(len(puzzle.categories))
    )
    order = tuple(dice.sample(members, len(answer.symbols)))
    who, what, step = arrangement[:3]
    squares = [(step.index(who[member]), what.index(who[member])) for member in order]
    block = filled(size, answer.symbols, squares, puzzle.sort, faces, dice, anyhow=anyhow)
    if block is None:
        return None
    return arrangement, replace(puzzle, order=order, figures=block)


def _puzzle(sheet: Sheet) -> Puzzle:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def _answer(puzzle: Puzzle, arrangement: Arrangement) -> Answer:
    return Answer(puzzle.sort, read(puzzle, arrangement))


def solve(sheet: Sheet, knows: NoKnows) -> Iterator[Solution]:
    """Yield every answer that some arrangement fitting the statements reads as.

    Raises:
        GaveUp: after a bounded number of trials.
    """
    puzzle, seen = _puzzle(sheet), set()
    for arrangement in arrangements(puzzle):
        answer = _answer(puzzle, arrangement)
        if answer not in seen:
            seen.add(answer)
            yield Solution(answer, steps_of(puzzle, answer.symbols))


def describe(sheet: Sheet, part: str) -> Message:
    """Say what stands in the crossed table."""
    puzzle = _puzzle(sheet)
    return say(
        "logic-grid.describe",
        categories=len(puzzle.categories),
        members=len(puzzle.categories[0].members),
        figures=say(f"logic-grid.{puzzle.sort}"),
    )


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return how it goes, the statements, the names of all things, and what to write down."""
    return page_words(_puzzle(sheet))


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the figures in the squares; those that stand for colours are among the words."""
    puzzle = _puzzle(sheet)
    if puzzle.sort == "faces":
        return ()
    return tuple(figure for row in puzzle.figures for figure in row)


def hints(sheet: Sheet, knows: NoKnows, solution: Solution) -> tuple[Message, Message, Message]:
    """Name a way to begin, then a statement to begin with, then a square that it leads to."""
    return hints_of(_puzzle(sheet))


def mistakes(sheet: Sheet, knows: NoKnows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of reading in another order, and of misreading one statement."""
    puzzle = _puzzle(sheet)
    seen = {solution.answer.symbols}
    for symbols, means, noticed in misreadings(puzzle, solution.answer.symbols):
        if symbols not in seen:
            seen.add(symbols)
            yield Mistake(Answer(puzzle.sort, symbols), means, noticed)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, squares to mark, finds of the working, and its longest chain."""
    puzzle = _puzzle(sheet)
    working = work(puzzle)
    text = " ".join(messages.words(message) for message in page_words(puzzle).values())
    return Effort(
        words=len(text.split()),
        marks=sum((find.ticks | find.crosses).bit_count() for find in working.finds),
        steps=len(working.finds),
        depth=working.depth,
        skill="logic",
    )


def solved(sheet: Sheet, knows: NoKnows, solution: Solution) -> dict[str, Any]:
    """Return for the teacher's key which things go together: the place of each."""
    puzzle = _puzzle(sheet)
    wanted = solution.answer
    fitting = (one for one in arrangements(puzzle) if _answer(puzzle, one) == wanted)
    return {"places": [list(row) for row in next(fitting)]}
