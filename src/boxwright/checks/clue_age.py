"""A puzzle is not for children younger than its kind is made for."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem
from boxwright.puzzles.shelf import kind

CODE = "clue.age"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each clue whose kind is for older children than the youngest."""
    youngest = edition.game.ages[0]
    for id, clue in edition.game.clues.items():
        least = kind(clue.kind).FACTS.ages[0]
        if youngest < least:
            where = about.where(*clue.source.path, "kind")
            problem = Problem.of(
                CODE, where, clue=id, kind=clue.kind, least=least, youngest=youngest
            )
            yield Finding(problem, "note", "computed", Count(youngest, least))
