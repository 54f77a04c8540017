"""Hints that the teacher wrote must not rest on a code that is drawn anew each time.

A hint that names a figure, one of the lock's words, a move or a colour was written for one
sheet; with another code it leads astray.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.codes import written_codes
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Device
from boxwright.problems import Excerpt, Finding, Problem

CODE = "hints.own-with-drawn-code"
FIGURE = r"\d+"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each own hint that names what is drawn."""
    game = edition.game
    for clue in game.clues.values():
        lock = game.locks.get(clue.gives)
        if clue.hints is None or lock is None or len(written_codes(lock.code)) == 1:
            continue
        named = _named(about.device(clue.gives), written_codes(lock.code))
        for at, hint in enumerate(clue.hints):
            found = named.search(hint)
            if found is not None:
                where = about.where(*clue.source.path, "hints", at)
                problem = Problem.of(
                    CODE, where, lock=clue.gives, text=hint, named=found.group(), code=lock.code
                )
                also = (about.where("locks", clue.gives, "code"),)
                yield Finding(problem, "fix", "computed", Excerpt(hint, found.span()), also=also)


def _named(device: Device, codes: tuple[str, ...]) -> re.Pattern[str]:
    """Return a pattern for all that only one code could make true.

    `Left` alone is said of a page, too; two moves in a row are said of a code.
    """
    names = [face for face in device.faces if len(face) > 1]
    moves = "|".join(map(re.escape, sorted(names, key=len, reverse=True)))
    told = [FIGURE, *(rf"\b{re.escape(code)}\b" for code in codes)]
    if device.mechanism == "direction":
        told.append(rf"\b(?:{moves})[\s,]+(?:{moves})\b")
    elif moves:
        told.append(rf"\b(?:{moves})\b")
    return re.compile("|".join(told), re.IGNORECASE)
