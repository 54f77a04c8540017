"""A code out of the lesson can be guessed from the lesson: only so many of its words fit the lock.

Counted are the words and figures of the clue's own tables that the lock can show. Where
the code is one of them, and trying them all takes less time than the clue, it is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.plan import least_s
from boxwright.choose.edition import Edition
from boxwright.content.read import content_of
from boxwright.content.tables import Content
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import Finding, Problem, Seconds, Where

CODE = "guess.from-content"
PIECE = re.compile(r"\w+")
READ = frozenset({"digits", "letters"})


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each code that is one of a few words of its clue's content."""
    for id, clue in edition.game.clues.items():
        content, least = content_of(about.folder, clue), least_s(edition, clue.gives)
        code = edition.codes.get(clue.gives)
        if code is None or least is None or not isinstance(content, Content):
            continue
        device = about.device(clue.gives)
        fitting = _fitting(content, device)
        seconds = int(len(fitting) * entry(device).one_try_s(len(code)))
        if code in fitting and seconds < least:
            problem = Problem.of(
                CODE,
                about.where("locks", clue.gives, "code"),
                lock=clue.gives,
                clue=id,
                code=about.written(clue.gives, code),
                n=len(fitting),
            )
            also = (about.where(*clue.source.path, "content"),)
            yield Finding(problem, "note", "estimated", Seconds(seconds, least), also=also)


def _fitting(content: Content, device: Device) -> frozenset[Code]:
    """Return the words and figures of the tables that the lock can show.

    A date counts by its pieces and, without what parts them, as a whole.
    """
    mechanism = entry(device)
    if mechanism.alphabet(device) not in READ:
        return frozenset()
    cells = {
        cell for table in content.tables.values() for row in table.rows for cell in row.values()
    }
    pieces = {piece for cell in cells for piece in (*PIECE.findall(cell), *_joined(cell))}
    codes = (mechanism.read(device, piece, Where("")) for piece in pieces)
    return frozenset(c for c in codes if isinstance(c, tuple) and mechanism.possible(device, c))


def _joined(cell: str) -> tuple[str, ...]:
    return ("".join(PIECE.findall(cell)),)
