"""A code that the room shows anyway (its number, a date on the wall) will be tried first."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import entry
from boxwright.problems import Answers, Finding, Problem

CODE = "code.on-view"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each code that is among the room's figures."""
    room = about.folder.room
    on_view = {"".join(one.split()).upper() for one in room.room.figures} if room else set()
    for id, code in edition.codes.items():
        written = entry(about.device(id)).write(about.device(id), code)
        if "".join(written.split()).upper() in on_view:
            where = about.where("locks", id, "code")
            problem = Problem.of(CODE, where, lock=id, code=written)
            yield Finding(problem, "fix", "declared", Answers((written,)))
