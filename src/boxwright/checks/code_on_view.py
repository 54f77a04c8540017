"""A code that the room shows anyway (its number, a date on the wall) will be tried first."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.spelt import given_away
from boxwright.choose.edition import Edition
from boxwright.problems import Answers, Finding, Problem

CODE = "code.on-view"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each code that can be read from the room's figures."""
    room = about.folder.room
    for id, code in edition.codes.items():
        for figure in room.room.figures if room is not None else ():
            if given_away(figure, about.device(id), code, edition.game.language) is not None:
                where, written = about.where("locks", id, "code"), about.written(id, code)
                problem = Problem.of(CODE, where, lock=id, code=written, figure=figure)
                yield Finding(problem, "fix", "declared", Answers((written,)))
                break
