"""A figure in the story or in a name that is as long as a lock's code will be tried on it.

Figures on the sheets are held against the sheets' facts when the print-outs are read back;
here it is about what the teacher wrote.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.read_texts import Read, written
from boxwright.checks.spelt import given_away
from boxwright.choose.answers import answer_of
from boxwright.choose.edition import Edition
from boxwright.problems import Excerpt, Finding, Problem

CODE = "text.figure"
FIGURE = re.compile(r"(?<!\d)\d+(?!\d)")


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each figure that could be the code of a lock, and is not."""
    for read in written(edition, about):
        for match in FIGURE.finditer(read.text):
            locks = tuple(
                lock for lock in edition.codes if _could_be(edition, about, lock, match.group())
            )
            if locks:
                yield _finding(about, read, match, locks)


def _could_be(edition: Edition, about: About, lock: str, figure: str) -> bool:
    device, code = about.device(lock), edition.codes[lock]
    answer = answer_of(device, code)
    if answer is None or answer.alphabet != "digits" or len(answer.symbols) != len(figure):
        return False
    return given_away(figure, device, code, edition.game.language) is None  # else it is a leak


def _finding(about: About, read: Read, match: re.Match[str], locks: tuple[str, ...]) -> Finding:
    where = about.where(*read.path)
    problem = Problem.of(CODE, where, figure=match.group(), locks=locks, n=len(locks))
    return Finding(problem, "note", "computed", Excerpt(read.text, match.span()))
