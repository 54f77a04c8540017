"""As many hints as are promised can be given: three lines for each clue, no more."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.hinting import LINES
from boxwright.problems import Count, Finding, Problem

CODE = "hints.count"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where more hints are promised than there are, or some are written for none."""
    game = edition.game
    if game.hints == "auto":
        return
    where, there = about.where("game", "hints"), LINES * len(game.clues)
    own = [id for id, clue in game.clues.items() if clue.hints]
    if game.hints > there:
        problem = Problem.of(f"{CODE}-more", where, n=game.hints, there=there)
        yield Finding(problem, "note", "computed", Count(there, game.hints))
    if game.hints == 0 and own:
        problem = Problem.of(f"{CODE}-none", where, clues=tuple(own), n=len(own))
        yield Finding(problem, "note", "computed", Count(0, LINES * len(own)))
