"""Makes quizzes: which questions, with how many options, in what order, for a code."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple, get_args

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles.contract import Answer, Made
from boxwright.puzzles.quiz_index_content import MOST_CHOICES, PAGE, Row
from boxwright.puzzles.quiz_index_sheet import (
    LABELS,
    Carried,
    Choice,
    Fact,
    Knows,
    Question,
    Quiz,
    Sheet,
    Sign,
)

SIGNS: tuple[Sign, ...] = get_args(Sign)
USUAL = 4
EXTRA = {"easier": 0, "ordinary": 0, "harder": 1, "hardest": 2}


class Plan(NamedTuple):
    """What can be made: options for each question, and questions that no box asks for."""

    choices: int
    extra: int


def carried(answer: Answer) -> Carried:
    """Return what options are marked with."""
    if answer.alphabet == "moves":
        return "moves"
    return "digits" if answer.alphabet == "digits" else "letters"


def needed(answer: Answer) -> int:
    """Return how many options the questions need, so that one bears each symbol."""
    if answer.alphabet == "moves":
        return 2
    labels = LABELS[carried(answer)]
    return max(2, *(labels.index(symbol) + 1 for symbol in answer.symbols))


def most_choices(rows: Sequence[Row], answer: Answer) -> int:
    """Return with how many options there are questions enough for `answer`; 0 for none."""
    limit = len(LABELS["moves"]) if answer.alphabet == "moves" else MOST_CHOICES
    counts = sorted((len(row.wrong) + 1 for row in rows), reverse=True)
    return min(limit, counts[len(answer.symbols) - 1]) if len(rows) >= len(answer.symbols) else 0


def plan(rows: Sequence[Row], answer: Answer, wish: int | None, level: Level) -> Plan | None:
    """Return the fullest sheet that has room, or None where not even the smallest has.

    Args:
        rows: the questions, of which enough have as many options as are needed.
        answer: what the sheet leads to.
        wish: the teacher's number of options, if given.
        level: how hard it is to be.
    """
    most, least = most_choices(rows, answer), needed(answer)
    usual = USUAL - (level == "easier")
    most = wish or max(least, min(most, usual))
    length = len(answer.symbols)
    for choices in range(most, (wish or least) - 1, -1):
        lines = sorted(row.lines(choices) for row in rows if len(row.wrong) >= choices - 1)
        for extra in range(EXTRA[level] + (level != "easier" and length == 1), -1, -1):
            if length + extra <= len(lines) and sum(lines[: length + extra]) <= PAGE:
                return Plan(choices, min(extra, len(SIGNS) - length))
    return None


def quiz_for(answer: Answer, rows: Sequence[Row], plan: Plan, level: Level, dice: Dice) -> Made:
    """Return a sheet for `answer`, with the facts that it takes to solve it."""
    count = len(answer.symbols) + plan.extra
    drawn = _drawn(rows, count, plan.choices, level, dice.child("rows"))
    signs = dice.child("signs").sample(SIGNS, count)
    labels = _labels(answer, plan.extra, plan.choices, dice.child("extra"))
    questions = [
        _question(row, sign, label, plan.choices, carried(answer), dice.child("options", at))
        for at, (row, sign, label) in enumerate(zip(drawn, signs, labels, strict=True))
    ]
    if level != "easier":
        questions = _mixed(questions, dice.child("order"))
    facts = sorted((Fact(row.question, row.right) for row in drawn), key=lambda it: it.question)
    asked = tuple(signs[: len(answer.symbols)])
    return Made(Sheet(Quiz(carried(answer), tuple(questions), asked)), Knows(tuple(facts)))


def _drawn(rows: Sequence[Row], count: int, choices: int, level: Level, dice: Dice) -> list[Row]:
    """Draw questions, those for the level first, that have room on one page together."""
    left = [row for row in dice.shuffled(rows) if len(row.wrong) >= choices - 1]
    left.sort(key=lambda row: _distance(row.level, level))
    found: list[Row] = []
    room = PAGE
    while len(found) < count:
        rest = count - len(found) - 1
        row = next(row for row in left if _fits(row, left, rest, choices, room))
        left.remove(row)
        found.append(row)
        room -= row.lines(choices)
    return found


def _distance(found: str, wanted: Level) -> float:
    """Return how far a row's level is off; the easier one is nearer where two are as far."""
    if not found:
        return 0
    steps = [str(level) for level in LEVELS].index(found) - LEVELS.index(wanted)
    return abs(steps) + (0.5 if steps > 0 else 0)


def _fits(row: Row, left: Sequence[Row], rest: int, choices: int, room: float) -> bool:
    """Tell whether `row` leaves room for `rest` more, if those were the shortest."""
    others = sorted(it.lines(choices) for it in left if it is not row)
    return row.lines(choices) + sum(others[:rest]) <= room + 1e-9


def _labels(answer: Answer, extra: int, choices: int, dice: Dice) -> list[str]:
    """Return the label of the right option of each question, those not asked for at the end."""
    labels = LABELS[carried(answer)]
    usable = labels if answer.alphabet == "moves" else labels[:choices]
    return [*answer.symbols, *(dice.pick(usable) for _ in range(extra))]


def _question(
    row: Row, sign: Sign, label: str, choices: int, carries: Carried, dice: Dice
) -> Question:
    labels = LABELS[carries]
    if carries == "moves":
        others = dice.sample([move for move in labels if move != label], choices - 1)
        labels = tuple(move for move in labels if move == label or move in others)
    wrong = iter(dice.sample(row.wrong, choices - 1))
    return Question(
        sign,
        row.question,
        tuple(Choice(it, row.right if it == label else next(wrong)) for it in labels[:choices]),
    )


def _mixed(questions: list[Question], dice: Dice) -> list[Question]:
    """Return the questions in another order than the code's, where there are two or more."""
    mixed = dice.shuffled(questions)
    return mixed if mixed != questions or len(mixed) == 1 else [*mixed[1:], mixed[0]]
