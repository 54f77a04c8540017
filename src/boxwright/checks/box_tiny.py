"""Measures are millimetres: a box as small as a thimble was measured in centimetres.

`TINY_MM` is a choice of ours, no source: nothing that a lock hangs on is smaller.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem, Where

CODE = "box.tiny"
TINY_MM = 60
MM_PER_CM = 10

Sides = tuple[float, float, float] | None


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each box of game and kit whose longest side inside is tiny."""
    for where, name, sides in _measured(edition, about):
        if sides is not None and max(sides) < TINY_MM:
            yield _finding(where, name, sides)


def _measured(edition: Edition, about: About) -> Iterator[tuple[Where, str, Sides]]:
    for id, wanted in edition.game.boxes.items():
        yield about.where("boxes", id, "inside_mm"), wanted.name, wanted.inside_mm
    kit = about.folder.kit
    for tag, real in kit.boxes.items() if kit is not None else ():
        where = about.folder.where("kit.toml", ("boxes", tag, "inside_mm"))
        yield where, real.name, real.inside_mm


def _finding(where: Where, name: str, sides: tuple[float, float, float]) -> Finding:
    ten_times = ", ".join(f"{side * MM_PER_CM:g}" for side in sides)
    problem = Problem.of(
        CODE, where, name=name, longest=f"{max(sides):g}", right=f"inside_mm = [{ten_times}]"
    )
    return Finding(problem, "note", "computed", Count(int(max(sides)), TINY_MM))
