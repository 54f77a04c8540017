"""No code stands in a text that pupils read: not as it is, spaced out, in words, backwards.

Looked at: story, names, hints, and the sentences and texts of all sheets, save the body of
a sheet whose kind prints the code's symbols by design.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from boxwright.checks import About
from boxwright.checks.read_texts import Read, hinted, printed, written
from boxwright.checks.spelt import Span, around, given_away
from boxwright.choose.edition import Edition
from boxwright.problems import Excerpt, Finding, Problem

CODE = "leak.code"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each text that gives a code away."""
    language = edition.game.language
    texts = (written(edition, about), hinted(edition, about), printed(edition, about))
    for read in chain.from_iterable(texts):
        for lock, code in edition.codes.items():
            span = given_away(read.text, about.device(lock), code, language)
            if span is not None:
                yield _finding(about, lock, about.written(lock, code), read, span)


def _finding(about: About, lock: str, code: str, read: Read, span: Span) -> Finding:
    problem = Problem.of(
        CODE if read.clue is None else f"{CODE}-made",
        about.where(*read.path),
        lock=lock,
        code=code,
        clue=read.clue or "",
        text=around(read.text, span),
    )
    also = (about.where("locks", lock, "code"),)
    return Finding(problem, "stop", "computed", Excerpt(read.text, span), also=also)
