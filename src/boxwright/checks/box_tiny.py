"""Measures are millimetres: a box as small as a thimble was measured in centimetres.

`TINY_MM` is a choice of ours, no source: nothing that a lock hangs on is smaller.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from boxwright.checks import About
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.choose.hardware import roomy
from boxwright.game.draft import GAME, KIT
from boxwright.problems import Count, Edit, Finding, Problem

CODE = "box.tiny"
TINY_MM = 60
MM_PER_CM = 10

Sides = tuple[float, float, float]


class _Measured(NamedTuple):
    """A box of the game or of the kit, by its id or sticker, and its inside."""

    role: str
    id: str
    name: str
    sides: Sides | None


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each box of game and kit whose longest side inside is tiny."""
    for one in _measured(edition, about):
        if one.sides is not None and max(one.sides) < TINY_MM:
            yield _finding(edition, about, one, one.sides)


def _measured(edition: Edition, about: About) -> Iterator[_Measured]:
    for id, wanted in edition.game.boxes.items():
        yield _Measured(GAME, id, wanted.name, wanted.inside_mm)
    kit = about.folder.kit
    for tag, real in kit.boxes.items() if kit is not None else ():
        yield _Measured(KIT, tag, real.name, real.inside_mm)


def _finding(edition: Edition, about: About, one: _Measured, sides: Sides) -> Finding:
    length, breadth, height = (round(side * MM_PER_CM, 2) for side in sides)
    right = (length, breadth, height)
    said = ", ".join(f"{side:g}" for side in right)
    problem = Problem.of(
        CODE,
        about.folder.where(one.role, ("boxes", one.id, "inside_mm")),
        edit=_to_millimetres(edition, about, one, right),
        name=one.name,
        longest=f"{max(sides):g}",
        right=f"inside_mm = [{said}]",
    )
    return Finding(problem, "note", "computed", Count(int(max(sides)), TINY_MM))


def _to_millimetres(edition: Edition, about: About, one: _Measured, sides: Sides) -> Edit | None:
    """Return what writes the measure in millimetres, where the real boxes then still do."""
    still = _still_held if one.role == GAME else _still_goes_in
    if max(sides) < TINY_MM or not still(edition, about, one.id, sides):
        return None
    whole = [int(side) if side.is_integer() else side for side in sides]
    return change(about, "boxes", one.id, "inside_mm", to=whole, role=one.role)


def _still_held(edition: Edition, about: About, id: str, sides: Sides) -> bool:
    """Tell whether the real boxes that play a box of the game are as large as that."""
    kit, wanted = about.folder.kit, replace(edition.game.boxes[id], inside_mm=sides)
    tags = (tags.get(id) for tags in edition.stickers.values())
    return kit is None or all(roomy(kit.boxes[tag], wanted) for tag in tags if tag in kit.boxes)


def _still_goes_in(edition: Edition, _about: About, tag: str, _sides: Sides) -> bool:
    """Tell whether a real box stands in no other, for which it could be too large then."""
    boxes = edition.game.boxes
    inside = {id for id, box in boxes.items() if box.place in boxes}
    return not any(tags.get(id) == tag for tags in edition.stickers.values() for id in inside)
