"""What is printed around a puzzle is in the game's language, else that is told.

Rules, steps and headings come from the catalogues; where the game's language has none,
English stands in, which pupils would meet for the first time in class.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.messages import speaks
from boxwright.problems import Excerpt, Finding, Problem

CODE = "text.language"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note where there are no words in the language of the game."""
    language = edition.game.language
    if not speaks(language):
        problem = Problem.of(CODE, about.where("game", "language"), language=language)
        yield Finding(problem, "note", "computed", Excerpt(language, (0, len(language))))
