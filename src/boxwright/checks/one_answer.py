"""Every sheet has exactly one answer, found afresh from the file: its own code.

Sheets whose answer rests on what pupils know, or on the teacher's word, are proven only
as far as that holds, and the finding says so.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.choose.edition import Edition
from boxwright.problems import Answers, Finding, Problem, Severity
from boxwright.puzzles.contract import Answer

CODE = "sheet.one-answer"
SPACED = frozenset({"moves", "faces", "numbers"})
"""Alphabets whose symbols are words or numbers, and are told apart by blanks."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each sheet with no answer, several, or another than its code."""
    for one in opened(edition, about):
        fault = _fault(one)
        if fault is None:
            continue
        found = tuple(_written(solution.answer) for solution in one.solutions)
        meant = "" if one.answer is None else _written(one.answer)
        problem = Problem.of(
            f"{CODE}-{fault}",
            one.where,
            clue=one.clue,
            lock=one.gives,
            n=len(found),
            answers=found,
            meant=meant,
        )
        severity: Severity = "fix" if fault == "unknown" else "stop"
        yield Finding(problem, severity, one.basis, Answers(found), set=edition.set)


def _fault(one: Opened) -> str | None:
    answers = list(dict.fromkeys(solution.answer for solution in one.solutions))
    if len(answers) > 1:
        return "several"
    if not answers:
        return "none" if one.complete else "unknown"
    if answers != [one.answer]:
        return "other"
    return None if one.complete else "unknown"


def _written(answer: Answer) -> str:
    return (" " if answer.alphabet in SPACED else "").join(answer.symbols)
