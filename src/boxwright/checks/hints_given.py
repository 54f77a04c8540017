"""Hints that the teacher wrote fit the codes: with codes drawn anew, they must not speak of one.

Hints are on the teacher's word: what is checked is that none of them holds a figure or a
word of the code that was drawn.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.codes import written_codes
from boxwright.choose.edition import Edition
from boxwright.problems import Excerpt, Finding, Problem

CODE = "hints.own-with-drawn-code"
FIGURE = re.compile(r"\d")


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each own hint with a figure where the code is drawn anew."""
    game = edition.game
    for clue in game.clues.values():
        lock = game.locks.get(clue.gives)
        if clue.hints is None or lock is None or len(written_codes(lock.code)) == 1:
            continue
        for at, hint in enumerate(clue.hints):
            found = FIGURE.search(hint)
            if found is not None:
                where = about.where(*clue.source.path, "hints", at)
                problem = Problem.of(CODE, where, lock=clue.gives, text=hint, code=lock.code)
                yield Finding(problem, "fix", "computed", Excerpt(hint, found.span()))
