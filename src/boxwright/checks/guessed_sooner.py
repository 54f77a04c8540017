"""A lock should not fall to patience before its clue can be solved.

Held against each other: the average time to try all codes that could have been drawn,
and the least time that the quickest clue for it takes. Both are rough: seconds for a
try and the clue's band are assumptions, not measurements.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.guessing_codes import known_guesses, led_to
from boxwright.checks.plan import least_s
from boxwright.checks.remedies import change, ways_to
from boxwright.choose.codes import AUTO
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Guess
from boxwright.problems import Edit, Finding, Problem, Seconds, Severity
from boxwright.puzzles.shelf import kind
from boxwright.text import duration

CODE = "guess.sooner"
LIKELY = ("nothing", "felt")
"""What pupils may know: nothing; or, on a cheap lock, what their fingers feel."""


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield what is opened sooner by trying: to fix where all codes are tried, else a note."""
    for id in edition.codes:
        solving = least_s(edition, id)
        guess = sooner(edition, about, id)
        if guess is not None and solving is not None:
            yield _finding(edition, about, id, guess, solving)


def sooner(edition: Edition, about: About, lock: str) -> Guess | None:
    """Return the way of trying that opens a lock before its clue can, if there is one."""
    solving = least_s(edition, lock)
    tries = known_guesses(edition, about, lock) if solving is not None else ()
    return next((g for g in tries if g.known in LIKELY and g.average_s < (solving or 0)), None)


def _finding(edition: Edition, about: About, id: str, guess: Guess, solving: int) -> Finding:
    seconds, known, longer = int(guess.average_s), guess.known, None
    if about.device(id).mechanism == "direction":
        longer = _longer(edition, about, id, solving)
        known = "few-moves" if longer is None else "moves"
    problem = Problem.of(
        f"{CODE}-{known}",
        about.where("locks", id),
        edit=None if longer is None else _asking_for(edition, about, id, longer),
        lock=id,
        tries=guess.tries,
        guessing=duration(seconds),
        solving=duration(solving),
        length=longer or 0,
    )
    severity: Severity = "note" if guess.known == "felt" else "fix"
    return Finding(problem, severity, "estimated", Seconds(seconds, solving))


def _longer(edition: Edition, about: About, lock: str, solving: int) -> int | None:
    """Return how many moves a code must have to withstand trying; None where none will do."""
    kinds = [kind(clue.kind) for clue in edition.game.clues.values() if clue.gives == lock]
    most = max(carries.longest for made in kinds for carries in made.FACTS.answers)
    lengths = range(len(edition.codes[lock]) + 1, min(most, about.device(lock).longest) + 1)
    enough = (n for n in lengths if led_to(edition, about, lock, n).average_s >= solving)
    return next(enough, None)


def _asking_for(edition: Edition, about: About, lock: str, length: int) -> Edit | None:
    """Return what asks for codes of `length`, where every lock and every way can have them."""
    carried = (kind(way.kind).FACTS.answers for way in ways_to(about, lock))
    able = all(max(one.longest for one in answers) >= length for answers in carried)
    able = able and all(one.longest >= length for one in about.all_devices(lock))
    if not able or edition.game.locks[lock].code != AUTO:
        return None
    return change(about, "locks", lock, "length", to=[length, length])
