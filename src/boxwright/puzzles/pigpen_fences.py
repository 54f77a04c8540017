"""Fences, signs and keys: types, and the orders of letters that are in use.

A grid has nine cells, numbered from 0 line by line; a cross has four: top, left, right,
bottom. A sign is what stands around one cell: its lines, and a dot in a dotted fence.
"""

from __future__ import annotations

from typing import Literal

from boxwright.frozen import frozen_value

Shape = Literal["grid", "cross"]
Carried = Literal["letters", "text", "digits"]
Rule = Literal["whole", "run", "rest", "again"]
"""How cells without a letter are filled in; see `Key`."""

CELLS: dict[Shape, int] = {"grid": 9, "cross": 4}
PLACES: dict[Shape, tuple[str, ...]] = {
    "grid": (
        "top-left",
        "top-middle",
        "top-right",
        "middle-left",
        "middle",
        "middle-right",
        "bottom-left",
        "bottom-middle",
        "bottom-right",
    ),
    "cross": ("top", "left", "right", "bottom"),
}
SYMBOLS: dict[Carried, str] = {
    "letters": "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "text": "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "digits": "1234567890",
}
"""What cells hold, in the usual order."""

ORDERS: dict[str, tuple[tuple[Shape, bool], ...]] = {
    "grids-first": (("grid", False), ("grid", True), ("cross", False), ("cross", True)),
    "in-turn": (("grid", False), ("cross", False), ("grid", True), ("cross", True)),
}
"""The two orders of fences that are common; with the alphabet written through them."""


@frozen_value
class Sign:
    """What stands around one cell of a fence; `dot` where the fence is dotted."""

    shape: Shape
    cell: int
    dot: bool


@frozen_value
class Fence:
    """One fence with what stands in its cells; "" is a cell that pupils fill in."""

    shape: Shape
    dot: bool
    cells: tuple[str, ...]


@frozen_value
class Key:
    """The fences in their order, and the rule by which empty cells are filled in.

    `whole`: none is empty. `run`: the alphabet (or the figures) runs on from cell to cell,
    and after its end begins again. `rest`: after the cells at the beginning, all letters
    that are not among them follow in the order of the alphabet. `again`: after ten
    figures, the same ten follow in the same order, and so on.
    """

    fences: tuple[Fence, ...]
    rule: Rule


@frozen_value
class Row:
    """The signs in the order in which they are read."""

    carries: Carried
    signs: tuple[Sign, ...]


@frozen_value
class Sheet:
    """Signs and key, which may lie in two places."""

    sheet: Row | None = None
    key: Key | None = None
