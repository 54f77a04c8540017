"""A usual mistake must not open another lock, nor its own by way of a neighbour."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.choose.answers import answer_of
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Answers, Finding, Message, Problem
from boxwright.puzzles.contract import Answer

CODE = "mistake.opens"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each mistake that opens a lock."""
    for one in opened(edition, about):
        solution = one.solution()
        if solution is None:
            continue
        for mistake in one.kind.mistakes(one.sheet, one.knows, solution):
            for lock in _opened_by(edition, about, mistake.answer):
                if lock == one.gives and not about.device(lock).order_matters:
                    continue  # where no order counts, a wrong order is no mistake
                yield _finding(about, one, lock, mistake.answer, mistake.means)


def _finding(about: About, one: Opened, lock: str, answer: Answer, means: Message) -> Finding:
    written = entry(about.device(lock)).write(about.device(lock), answer.symbols)
    code = CODE if lock != one.gives else f"{CODE}-own"
    problem = Problem.of(code, one.where, clue=one.clue, lock=lock, code=written, means=means)
    return Finding(problem, "fix", "computed", Answers((written,)))


def _opened_by(edition: Edition, about: About, answer: Answer) -> Iterator[str]:
    for lock, code in edition.codes.items():
        device = about.device(lock)
        if _alphabet(device, code) == answer.alphabet and _opens(device, code, answer.symbols):
            yield lock


def _alphabet(device: Device, code: Code) -> str | None:
    answer = answer_of(device, code)
    return None if answer is None else answer.alphabet


def _opens(device: Device, code: Code, tried: Code) -> bool:
    mechanism = entry(device)
    return mechanism.possible(device, tried) and mechanism.same(device, code, tried)
