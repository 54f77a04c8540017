"""As many hints as are promised can be given: three lines for each clue, no more."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.remedies import change
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
        edit = change(about, "game", "hints", to=there)
        problem = Problem.of(f"{CODE}-more", where, edit=edit, n=game.hints, there=there)
        yield Finding(problem, "note", "computed", Count(there, game.hints))
    if game.hints == 0 and own:
        edit = change(about, "game", "hints", to="auto")
        problem = Problem.of(f"{CODE}-none", where, edit=edit, clues=tuple(own), n=len(own))
        yield Finding(problem, "note", "computed", Count(0, LINES * len(own)))
