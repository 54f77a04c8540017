"""Where two sheets in hand could both be for two locks in reach, something must say which.

Sheets are told apart by what they lead to: locks of one alphabet and length, open to
trying at the same time. A wrong try costs time, not the game, so this is a note.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from boxwright.checks import About
from boxwright.choose.answers import answer_of
from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.unlocking import waves
from boxwright.problems import Clash, Finding, Problem

CODE = "clue.which-lock"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each pair of clues that are solved at one time for like locks."""
    game = edition.game
    when = {thing: at for at, wave in enumerate(waves(ways_of(edition))) for thing in wave}
    clues = [id for id, clue in game.clues.items() if clue.gives in edition.codes and id in when]
    for one, other in combinations(clues, 2):
        locks = game.clues[one].gives, game.clues[other].gives
        if locks[0] == locks[1] or when[one] != when[other]:
            continue
        answers = [answer_of(about.device(lock), edition.codes[lock]) for lock in locks]
        first, second = answers
        if first is None or second is None or first.alphabet != second.alphabet:
            continue
        if len(first.symbols) == len(second.symbols):
            problem = Problem.of(CODE, about.where("clues", other), clues=(one, other), locks=locks)
            also = (about.where("clues", one),)
            yield Finding(problem, "note", "computed", Clash(locks, "code"), also=also)
