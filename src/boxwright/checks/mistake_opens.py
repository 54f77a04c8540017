"""A usual mistake must not open another lock, nor its own by way of a neighbour.

What a sheet gives upside down, from behind or in another order is among its kind's
mistakes. A lock that must be open before the sheet can be solved is past being opened; and
where a lock is made to take a near miss (heeds no order, turns to a mark beside), its own
clue may end in one.
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
            for lock in edition.codes if mistake.answer != one.answer else ():
                if _matters(edition, about, one, mistake.answer, lock):
                    yield _finding(about, one, lock, mistake)


def _matters(edition: Edition, about: About, one: Opened, answer: Answer, lock: str) -> bool:
    devices, code = about.all_devices(lock), edition.codes[lock]
    if lock == one.gives:
        return any(_by_wear(device, code, answer) for device in devices)
    opens = any(_opens(device, code, answer) for device in devices)
    return opens and one.clue in had(edition, about, without=[lock])


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


def _opens(device: Device, code: Code, answer: Answer) -> bool:
    """Tell whether a wrong answer opens a lock set to `code`, by design or by wear."""
    tried = code_of(device, answer)
    by_design = tried is not None and entry(device).same(device, code, tried)
    return by_design or _by_wear(device, code, answer)


def _by_wear(device: Device, code: Code, answer: Answer) -> bool:
    mechanism, tried = entry(device), code_of(device, answer)
    if tried is None or mechanism.same(device, code, tried):
        return False
    return tried in mechanism.neighbours(device, code)
