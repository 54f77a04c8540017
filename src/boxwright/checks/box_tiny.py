"""Measures are millimetres: a box as small as a thimble was measured in centimetres.

`TINY_MM` is a choice of ours, no source: nothing that a lock hangs on is smaller.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from boxwright.checks import About
from boxwright.checks.remedies import change, is_enough
from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedGame
from boxwright.game.draft import GAME, KIT
from boxwright.game.folder import Folder
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
    """Return what writes the measure in millimetres, where the shelf is then enough."""
    tried = _measured_so(edition, about, one, sides)
    if max(sides) < TINY_MM or not is_enough(edition, *tried):
        return None
    whole = [int(side) if side.is_integer() else side for side in sides]
    return change(about, "boxes", one.id, "inside_mm", to=whole, role=one.role)


def _measured_so(
    edition: Edition, about: About, one: _Measured, sides: Sides
) -> tuple[Folder, ArrangedGame]:
    """Return the folder and the game as they are with a box so large inside."""
    folder, game = about.folder, edition.game
    if one.role == GAME:
        box = replace(game.boxes[one.id], inside_mm=sides)
        return folder, replace(game, boxes={**game.boxes, one.id: box})
    assert folder.kit is not None
    real = folder.kit.boxes[one.id].model_copy(update={"inside_mm": sides})
    boxes = {**folder.kit.boxes, one.id: real}
    return replace(folder, kit=folder.kit.model_copy(update={"boxes": boxes})), game
