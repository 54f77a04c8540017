"""A lock that hangs in the open long before its clue comes is tried out of boredom.

Held against each other: the time for all codes that could have been drawn, and the time
from when the lock can be tried to when its clue is solved (at most to the end of play),
half of which pupils are taken to spend on it. Both are rough; see `plan` and
`guessing_codes`.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.guessed_sooner import sooner
from boxwright.checks.guessing_codes import known_guesses
from boxwright.checks.plan import times_of
from boxwright.choose.edition import Edition
from boxwright.problems import Finding, Problem, Seconds
from boxwright.text import duration

CODE = "guess.waiting"
# Assumption, no source: nobody turns wheels without a pause for a whole lesson.
SHARE_TRYING = 1 / 2


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each lock all of whose codes can be tried while it waits."""
    for id in edition.codes:
        waits = _waits_s(edition, about, id)
        guesses = known_guesses(edition, about, id)
        if (
            not guesses
            or guesses[0].worst_s >= waits * SHARE_TRYING
            or sooner(edition, about, id) is not None
        ):
            continue
        needs = int(guesses[0].worst_s)
        problem = Problem.of(
            CODE,
            about.where("locks", id),
            lock=id,
            guessing=duration(needs),
            waiting=duration(waits),
        )
        yield Finding(problem, "note", "estimated", Seconds(needs, waits))


def _waits_s(edition: Edition, about: About, lock: str) -> int:
    game, times = edition.game, times_of(edition, about)
    solved = [times[id] for id, clue in game.clues.items() if clue.gives == lock and id in times]
    place = game.boxes[game.locks[lock].closes].place
    reached = times.get(place, 0) if place in game.boxes else 0
    return max(0, min([*solved, game.time.play_s]) - reached) if solved else 0
