"""A lock should not fall to patience before its clue can be solved.

Held against each other: the average time to try all codes that could have been drawn,
and the least time that the quickest clue for it takes. Both are rough: seconds for a
try and the clue's band are assumptions, not measurements.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.guessing_codes import known_guesses
from boxwright.checks.plan import MINUTE, least_s
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Guess
from boxwright.problems import Finding, Message, Problem, Seconds, Severity, say

CODE = "guess.sooner"
LIKELY = ("nothing", "felt")
"""What pupils may know: nothing; or, on a cheap lock, what their fingers feel."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield what is opened sooner by trying: to fix where all codes are tried, else a note."""
    for id in edition.codes:
        solving = least_s(edition, id)
        guess = sooner(edition, about, id)
        if guess is not None and solving is not None:
            yield _finding(about, id, guess, solving)


def sooner(edition: Edition, about: About, lock: str) -> Guess | None:
    """Return the way of trying that opens a lock before its clue can, if there is one."""
    solving = least_s(edition, lock)
    tries = known_guesses(edition, about, lock) if solving is not None else ()
    return next((g for g in tries if g.known in LIKELY and g.average_s < (solving or 0)), None)


def _finding(about: About, id: str, guess: Guess, solving: int) -> Finding:
    seconds = int(guess.average_s)
    severity: Severity = "fix" if guess.known == "nothing" else "note"
    problem = Problem.of(
        f"{CODE}-{guess.known}",
        about.where("locks", id),
        lock=id,
        guessing=duration(seconds),
        solving=duration(solving),
    )
    return Finding(problem, severity, "computed", Seconds(seconds, solving))


def duration(seconds: int) -> Message:
    """Say a time: in seconds below two minutes, else in minutes."""
    if seconds < 2 * MINUTE:
        return say("guess.seconds", n=seconds)
    return say("guess.minutes", n=round(seconds / MINUTE))
