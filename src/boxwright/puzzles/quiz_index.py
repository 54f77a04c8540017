"""A quiz whose right options are the code: their numbers, letters or arrows, box by box.

Rules, as a pupil plays: every question has one right option. Each box of the code bears a
sign; put into it what stands before the right option of the question with that sign.
From the second level on, questions stand in another order than the boxes, and at the
higher levels one or two of them have no box.

Declared: which option is right is the teacher's word, and pupils bring it along; neither
sheet nor page tells it. Proven, given that: no second option is right, since options that
read alike are refused, as are questions that stand in the table twice. Without knowing
the answers every combination is possible, and `solve` yields them all.

Limits: a digit or letter needs as many options as its place (3 and C need three), so 0
cannot be carried; options that speak of others by their place ("all of the above") are
refused as far as English patterns find them, for options are shuffled. Where long texts
leave no room, fewer options are shown, and unasked questions are left out first. Rows of
another level are drawn only where those of the level, or of none, do not suffice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice, product
from typing import Any

from pydantic import BaseModel, Field

from boxwright import messages
from boxwright.dice import Dice
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
    Need,
    Solution,
    Step,
)
from boxwright.puzzles.quiz_index_content import MOST_CHOICES, faults, rows_of
from boxwright.puzzles.quiz_index_maker import (
    carried,
    most_choices,
    needed,
    plan,
    quiz_for,
)
from boxwright.puzzles.quiz_index_sheet import LABELS, Knows, Question, Quiz, Sheet
from boxwright.puzzles.shelf import shelf

__all__ = ["Knows", "Sheet"]

FACTS = Facts(
    answers=tuple(Carries(name, frozenset(labels), 1, 6) for name, labels in LABELS.items()),
    ages=(7, 16),
    band_minutes=(3, 12),
    skill=frozenset({"knowledge", "reading"}),
    content=(Need("questions", 1, ("question", "right", "wrong1")),),
    language="words",
    basis="declared",
    prints_symbols=True,
)
RULES = say("quiz-index.rules")
MOST_READINGS = 5_000


class Options(BaseModel, frozen=True, extra="forbid", strict=True):
    """What a teacher may choose: how many options each question shows; left out: by level."""

    choices: int | None = Field(default=None, ge=2, le=MOST_CHOICES)


def refuse(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Refuse what the table cannot carry, and a table with faults."""
    lengths = [entry for entry in FACTS.answers if entry.alphabet == answer.alphabet]
    if not lengths or not lengths[0].shortest <= len(answer.symbols) <= lengths[0].longest:
        return shelf().cannot_carry("quiz-index", answer)
    table = given.content.tables.get("questions")
    if table is None:
        return Problem.of("quiz-index.no-table", Where("", ("content",)))
    return next(faults(table), None) or _too_little(answer, options, given)


def _too_little(answer: Answer, options: Options, given: Given) -> Problem | None:
    """Return the problem that the questions are too few, too short of options, or too long."""
    table = given.content.tables["questions"]
    rows, content = rows_of(table), Where(table.file, ())
    if len(rows) < len(answer.symbols):
        return Problem.of("quiz-index.too-few", content, n=len(answer.symbols), found=len(rows))
    labels, most = LABELS[carried(answer)], most_choices(rows, answer)
    lacking = set(answer.symbols) - set(labels[:most] if answer.alphabet != "moves" else labels)
    if lacking:
        return _cannot_mark(answer, min(lacking), most, table.file)
    chosen = options.choices
    if chosen is not None and not needed(answer) <= chosen <= most:
        code = "quiz-index.choices-few" if chosen < needed(answer) else "quiz-index.choices-many"
        return Problem.of(
            code, Where("", ("options", "choices")), n=chosen, least=needed(answer), most=most
        )
    if plan(rows, answer, chosen, given.level) is None:
        return Problem.of("quiz-index.no-room", content, n=len(answer.symbols))
    return None


def _cannot_mark(answer: Answer, symbol: str, most: int, file: str) -> Problem:
    """Return the problem that no option bears `symbol`, with all that this table can carry."""
    labels = LABELS[carried(answer)]
    need = labels.index(symbol) + 1 if symbol in labels else 0
    return Problem.of(
        "quiz-index.few-options" if need else "quiz-index.no-option",
        Where(file, ()) if need else Where("", ("kind",)),
        symbol=symbol,
        code=" ".join(answer.symbols),
        carries=labels[:most],
        need=need - 1,
        n=len(answer.symbols),
        choices=tuple(name for name in shelf().carriers(answer) if name != "quiz-index"),
    )


def make(answer: Answer, options: Options, given: Given, dice: Dice) -> Made:
    """Make a sheet whose right options bear `answer`."""
    rows = rows_of(given.content.tables["questions"])
    planned = plan(rows, answer, options.choices, given.level)
    assert planned is not None, "refused where there is no room"
    return quiz_for(answer, rows, planned, given.level, dice)


def _quiz(sheet: Sheet) -> Quiz:
    assert sheet.sheet is not None, "the one part is always there"
    return sheet.sheet


def _plainly(text: str) -> str:
    return " ".join(text.split()).rstrip(".!? ").casefold()


def _marked(quiz: Quiz, sign: str, knows: Knows) -> list[tuple[str, int, int]]:
    """Return the labels that the box of `sign` may hold, each with its question and option.

    Where it is not known which option is right, every one may be.
    """
    known = {_plainly(fact.question): _plainly(fact.right) for fact in knows.facts}
    found: dict[str, tuple[str, int, int]] = {}
    for at, question in enumerate(quiz.questions):
        right = known.get(_plainly(question.text))
        for place, choice in enumerate(question.choices):
            fits = question.sign == sign and right in (None, _plainly(choice.text))
            if fits and choice.label in LABELS[quiz.carries]:
                found.setdefault(choice.label, (choice.label, at, place))
    return list(found.values())


def solve(sheet: Sheet, knows: Knows) -> Iterator[Solution]:
    """Yield every code that the right options bear, as far as it is known which are right.

    Raises:
        GaveUp: after `MOST_READINGS` codes.
    """
    quiz = _quiz(sheet)
    boxes = [_marked(quiz, sign, knows) for sign in quiz.asked]
    for count, found in enumerate(islice(product(*boxes), MOST_READINGS + 1)):
        if count == MOST_READINGS:
            raise GaveUp(MOST_READINGS)
        symbols = tuple(label for label, _, _ in found)
        steps = tuple(_step(quiz, at, place) for _, at, place in found)
        yield Solution(Answer(quiz.carries, symbols), steps)


def _step(quiz: Quiz, at: int, place: int) -> Step:
    question, path = quiz.questions[at], ("sheet", "questions", at, "choices", place)
    choice = question.choices[place]
    said = say(
        "quiz-index.step",
        sign=_sign(question),
        question=question.text,
        right=choice.text,
        label=_label(choice.label),
    )
    return Step(said, (path,))


def _sign(question: Question) -> Message:
    return say(f"quiz-index.sign-{question.sign}")


def _label(label: str) -> Message:
    if label in LABELS["moves"]:
        return say(f"quiz-index.move-{label}")
    return say("quiz-index.label", label=label)


def describe(sheet: Sheet, part: str) -> Message:
    """Say which signs stand at the questions and over the boxes, in their orders."""
    quiz = _quiz(sheet)
    return say(
        "quiz-index.describe",
        questions=tuple(_sign(question) for question in quiz.questions),
        boxes=tuple(say(f"quiz-index.sign-{sign}") for sign in quiz.asked),
        n=len(quiz.questions),
    )


def words(sheet: Sheet, part: str) -> Mapping[str, Message]:
    """Return `how` to go about it, and what to `find`."""
    quiz = _quiz(sheet)
    unasked = len(quiz.questions) - len(quiz.asked)
    find = "quiz-index.find-one" if len(quiz.asked) == 1 else "quiz-index.find"
    return {
        "how": say(f"quiz-index.how-{quiz.carries}"),
        "find": say(find),
        **({"unasked": say("quiz-index.unasked", n=unasked)} if unasked else {}),
    }


def prints(sheet: Sheet, part: str) -> tuple[str, ...]:
    """Return the questions and options, which the page must show."""
    quiz = _quiz(sheet)
    options = (choice.text for question in quiz.questions for choice in question.choices)
    return (*(question.text for question in quiz.questions), *options)


def solved(sheet: Sheet, knows: Knows, solution: Solution) -> dict[str, Any]:
    """Return what fills the boxes, and for each question the place of its right option, or -1."""
    right = {path[2]: path[4] for step in solution.working for path in step.at}
    count = len(_quiz(sheet).questions)
    return {
        "boxes": list(solution.answer.symbols),
        "right": [right.get(at, -1) for at in range(count)],
    }


def _wrong_options(sheet: Sheet, solution: Solution) -> Iterator[tuple[int, Question, int]]:
    """Yield box by box each wrong option: the box, the question, the option's place."""
    for box, step in enumerate(solution.working):
        _, _, at, _, right = step.at[0]
        question = _quiz(sheet).questions[int(at)]
        for place in range(len(question.choices)):
            if place != right:
                yield box, question, place


def hints(sheet: Sheet, knows: Knows, solution: Solution) -> tuple[Message, Message, Message]:
    """Give a way to work, then where the first box points, then an option to cross out."""
    wrong = list(_wrong_options(sheet, solution))
    first = next(question for box, question, _ in wrong if box == 0)
    _, question, place = max(wrong, key=lambda it: (len(it[1].choices), it[0]))
    return (
        say("quiz-index.hint-cross-out"),
        say("quiz-index.hint-first", sign=_sign(first), question=first.text),
        say("quiz-index.hint-wrong", sign=_sign(question), wrong=question.choices[place].text),
    )


def mistakes(sheet: Sheet, knows: Knows, solution: Solution) -> Iterator[Mistake]:
    """Yield what comes of reading the questions in their own order, and of each wrong option."""
    quiz, right = _quiz(sheet), solution.answer.symbols
    seen = {right}
    by_sign = dict(zip(quiz.asked, right, strict=True))
    downwards = tuple(by_sign[it.sign] for it in quiz.questions if it.sign in by_sign)
    if downwards not in seen:
        seen.add(downwards)
        yield Mistake(Answer(quiz.carries, downwards), say("quiz-index.mistake-order"), True)
    for box, question, place in _wrong_options(sheet, solution):
        choice = question.choices[place]
        symbols = (*right[:box], choice.label, *right[box + 1 :])
        if symbols not in seen:
            seen.add(symbols)
            means = say("quiz-index.mistake-option", sign=_sign(question), wrong=choice.text)
            yield Mistake(Answer(quiz.carries, symbols), means, False)


def effort(sheet: Sheet) -> Effort:
    """Count words to read, boxes to fill, options to weigh, and how far order is mixed."""
    quiz = _quiz(sheet)
    said = " ".join(messages.words(message) for message in words(sheet, "sheet").values())
    read = sum(len(text.split()) for text in prints(sheet, "sheet"))
    signs = [question.sign for question in quiz.questions]
    looks = sum(signs.index(sign) != at for at, sign in enumerate(quiz.asked))
    return Effort(
        words=len(said.split()) + read,
        marks=len(quiz.asked),
        steps=sum(len(question.choices) for question in quiz.questions) + looks,
        depth=1 + (looks > 0) + len(quiz.questions) - len(quiz.asked),
        skill="knowledge",
    )
