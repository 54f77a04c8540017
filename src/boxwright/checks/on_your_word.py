"""What no computation can vouch for is listed once, so that the teacher reads it over."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.sheets import opened
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "sheet.on-your-word"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield one note that names the clues whose answers rest on what the teacher wrote."""
    clues = tuple(one.clue for one in opened(edition, about) if one.basis == "declared")
    if clues:
        first, *rest = (about.where("clues", id) for id in clues)
        problem = Problem.of(CODE, first, clues=clues, n=len(clues))
        evidence = Count(len(edition.sheets) - len(clues), len(edition.sheets))
        yield Finding(problem, "note", "declared", evidence, also=tuple(rest))
