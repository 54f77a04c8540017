"""Every lock has something that leads to it: a clue for its code, or the key that opens it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "lock.without-clue"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each lock that nothing leads to."""
    led_to = {clue.gives for clue in edition.game.clues.values()}
    for id, lock in edition.game.locks.items():
        if id in led_to or lock.opened_by is not None:
            continue
        code = f"{CODE}-key" if lock.mechanism == "key" else CODE
        problem = Problem.of(code, about.where("locks", id), lock=id)
        yield Finding(problem, "stop", "computed", Count(0, 1))
