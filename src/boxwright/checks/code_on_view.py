"""A code that the room shows anyway (its number, a date on the wall) will be tried first."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from boxwright.checks import About
from boxwright.checks.other_codes import other_code
from boxwright.checks.spelt import given_away
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code
from boxwright.problems import Answers, Finding, Problem

CODE = "code.on-view"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each code that can be read from the room's figures."""
    for id, code in edition.codes.items():
        figure = _figure(edition, about, id, code)
        if figure is not None:
            where, written = about.where("locks", id, "code"), about.written(id, code)
            edit = other_code(edition, about, id, partial(_figure, edition, about, id))
            problem = Problem.of(CODE, where, edit=edit, lock=id, code=written, figure=figure)
            yield Finding(problem, "fix", "declared", Answers((written,)))


def _figure(edition: Edition, about: About, lock: str, code: Code) -> str | None:
    """Return the first of the room's figures that gives a code away."""
    device, language, room = about.device(lock), edition.game.language, about.folder.room
    figures = room.room.figures if room is not None else ()
    return next((one for one in figures if given_away(one, device, code, language)), None)
