"""A usual mistake must not open another lock, nor its own by way of a neighbour.

What a sheet gives upside down, from behind or in another order is among its kind's
mistakes. A lock that must be open before the sheet can be solved is past being opened.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.reach import had
from boxwright.checks.sheets import Opened, code_of, opened
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Answers, Finding, Problem, Severity
from boxwright.puzzles.contract import Answer, Mistake

CODE = "mistake.opens"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each mistake that opens another lock; a note for its own."""
    for one in opened(edition, about):
        for mistake in one.mistakes():
            if mistake.answer == one.answer:
                continue
            for lock in _opened_by(about, edition, mistake.answer):
                if lock == one.gives or one.clue in had(edition, about, without=[lock]):
                    yield _finding(about, one, lock, mistake)


def _finding(about: About, one: Opened, lock: str, mistake: Mistake) -> Finding:
    written = about.written(lock, code_of(about.device(lock), mistake.answer) or ())
    own = lock == one.gives
    problem = Problem.of(
        f"{CODE}-own" if own else CODE,
        one.where,
        clue=one.clue,
        lock=lock,
        code=written,
        means=mistake.means,
    )
    severity: Severity = "note" if own else "fix"
    also = (about.where("locks", lock),)
    return Finding(problem, severity, "computed", Answers((written,)), also=also)


def _opened_by(about: About, edition: Edition, answer: Answer) -> Iterator[str]:
    for lock, code in edition.codes.items():
        if any(_opens(device, code, answer) for device in about.all_devices(lock)):
            yield lock


def _opens(device: Device, code: Code, answer: Answer) -> bool:
    """Tell whether a wrong answer opens a lock set to `code`, by design or by wear."""
    mechanism, tried = entry(device), code_of(device, answer)
    if tried is None:
        return False
    return mechanism.same(device, code, tried) or tried in mechanism.neighbours(device, code)
