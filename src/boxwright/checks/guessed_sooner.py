"""A lock should not fall to patience before its clue can be solved.

Held against each other: the average time to try all codes that could have been drawn,
and the least time that the quickest clue for it takes. Both are rough: seconds for a
try and the clue's band are assumptions, not measurements.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.codes import can_have
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Guess, guesses
from boxwright.problems import Finding, Message, Problem, Seconds, Severity, say
from boxwright.puzzles.shelf import kind

CODE = "guess.sooner"
MINUTE = 60
LIKELY = ("nothing", "felt")
"""What pupils may know: nothing; or, on a cheap lock, what their fingers feel."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield what is opened sooner by trying: to fix where all codes are tried, else a note."""
    for id, code in edition.codes.items():
        solving, device = _solving_s(edition, id), about.device(id)
        if solving is None or device.fixed is not None or not can_have(device, code):
            continue  # a code that the lock cannot have is another check's business
        for guess in guesses(device, code=code):
            if guess.known in LIKELY and guess.average_s < solving:
                yield _finding(about, id, guess, solving)
                break


def _solving_s(edition: Edition, lock: str) -> int | None:
    """Return the least seconds that a clue for `lock` takes; None without a clue."""
    clues = edition.game.clues.values()
    least = [kind(clue.kind).FACTS.band_minutes[0] for clue in clues if clue.gives == lock]
    return min(least) * MINUTE if least else None


def _finding(about: About, id: str, guess: Guess, solving: int) -> Finding:
    seconds = int(guess.average_s)
    severity: Severity = "fix" if guess.known == "nothing" else "note"
    problem = Problem.of(
        f"{CODE}-{guess.known}",
        about.where("locks", id),
        lock=id,
        guessing=say("guess.seconds", n=seconds) if seconds < 2 * MINUTE else _minutes(seconds),
        solving=_minutes(solving),
    )
    return Finding(problem, severity, "computed", Seconds(seconds, solving))


def _minutes(seconds: int) -> Message:
    return say("guess.minutes", n=round(seconds / MINUTE))
