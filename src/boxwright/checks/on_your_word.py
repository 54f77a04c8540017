"""What no computation can vouch for is listed once, so that the teacher reads it over."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem
from boxwright.puzzles.shelf import kind

CODE = "sheet.on-your-word"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield one note that names the clues whose answers rest on what the teacher wrote."""
    clues = tuple(
        id for id, sheet in edition.sheets.items() if kind(sheet.kind).FACTS.basis == "declared"
    )
    if clues:
        first, *rest = (about.where("clues", id) for id in clues)
        problem = Problem.of(CODE, first, clues=clues, n=len(clues))
        yield Finding(problem, "note", "declared", Count(len(clues), 0), also=tuple(rest))
