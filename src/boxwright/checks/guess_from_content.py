"""A code out of the lesson can be guessed from the lesson: only so many of its words fit the lock.

Counted are the words and figures of the clue's own tables that the lock can show. Where
the code is one of them, and trying them all takes less time than the clue, it is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.content.read import content_of
from boxwright.content.tables import Content
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Count, Finding, Problem
from boxwright.puzzles.shelf import kind

CODE = "guess.from-content"
MINUTE = 60
PIECE = re.compile(r"\w+")


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each code that is one of a few words of its clue's content."""
    for id, clue in edition.game.clues.items():
        content = content_of(about.folder, clue)
        code = edition.codes.get(clue.gives)
        if code is None or not isinstance(content, Content):
            continue
        device = about.device(clue.gives)
        fitting = _fitting(content, device)
        seconds = len(fitting) * entry(device).one_try_s(len(code))
        if code in fitting and seconds < kind(clue.kind).FACTS.band_minutes[0] * MINUTE:
            where = about.where("locks", clue.gives, "code")
            written = entry(device).write(device, code)
            problem = Problem.of(
                CODE, where, lock=clue.gives, clue=id, code=written, n=len(fitting)
            )
            yield Finding(problem, "note", "computed", Count(len(fitting), 0))


def _fitting(content: Content, device: Device) -> set[Code]:
    """Return the words and figures of the tables that the lock can show."""
    cells = (
        cell for table in content.tables.values() for row in table.rows for cell in row.values()
    )
    pieces = (tuple(piece.upper()) for cell in cells for piece in PIECE.findall(cell))
    return {piece for piece in pieces if entry(device).possible(device, piece)}
