"""Every lock has something that leads to it: a clue for its code, or the key that opens it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "lock.without-clue"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each lock that nothing leads to.

    A lock with a key and no key named is refused when the game is read.
    """
    led_to = {clue.gives for clue in edition.game.clues.values()}
    for id, lock in edition.game.locks.items():
        if id not in led_to and lock.opened_by is None:
            box = edition.game.name_of(lock.closes)
            problem = Problem.of(CODE, about.where("locks", id), lock=id, box=box)
            yield Finding(problem, "stop", "computed", Count(0, 1))
