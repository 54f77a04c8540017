"""Every sheet has exactly one answer, found afresh from the file: its own code.

Sheets whose answer rests on what pupils know, or on the teacher's word, are proven only
as far as that holds, and the finding says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.choose.edition import Edition
from boxwright.problems import Answers, Finding, Problem
from boxwright.puzzles.contract import Answer, GaveUp

CODE = "sheet.one-answer"
MOST = 5


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each sheet with no answer, several, or another than its code."""
    for one in opened(edition, about):
        answers, complete = _answers(one)
        shown = tuple("".join(answer.symbols) for answer in answers)
        if answers == [one.answer] and complete:
            continue
        code = f"{CODE}-unknown" if answers == [one.answer] else CODE
        problem = Problem.of(code, one.where, clue=one.clue, n=len(answers), answers=shown)
        yield Finding(problem, "stop", "computed", Answers(shown), set=edition.set)


def _answers(one: Opened) -> tuple[list[Answer], bool]:
    """Return up to `MOST` answers, and whether the solver went through to the end."""
    try:
        found = list(islice(one.kind.solve(one.sheet, one.knows), MOST))
    except GaveUp:
        return [], False
    return [solution.answer for solution in found], True
