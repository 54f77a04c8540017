"""A page of the teacher's own does not say its code in plain figures or letters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.checks.spelt import around, given_away
from boxwright.choose.edition import Edition
from boxwright.problems import Excerpt, Finding, Problem

CODE = "leak.own"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each page of the teacher's own that holds the code of its lock."""
    for one in opened(edition, about):
        if one.kind.FACTS.own and one.code is not None:
            yield from _of_page(edition, about, one)


def _of_page(edition: Edition, about: About, one: Opened) -> Iterator[Finding]:
    path = edition.game.clues[one.clue].source.path
    prints: Any = getattr(one.kind, "prints", _nothing)
    assert one.code is not None
    for part in one.pupil_parts():
        for at, text in enumerate(prints(one.sheet, part)):
            span = given_away(text, about.device(one.gives), one.code, edition.game.language)
            if span is None:
                continue
            problem = Problem.of(
                CODE,
                about.where(*path, "options", "text", at),
                clue=one.clue,
                lock=one.gives,
                code=about.written(one.gives, one.code),
                text=around(text, span),
            )
            yield Finding(problem, "note", "computed", Excerpt(text, span))


def _nothing(sheet: Any, part: str) -> tuple[str, ...]:
    return ()
