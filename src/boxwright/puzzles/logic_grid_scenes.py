"""Scenes of our own: who has what, and who comes when; all words stand in the catalogue."""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.dice import Dice
from boxwright.puzzles.logic_grid_forms import Category, Scene

WHO = (
    "logic-grid.name-ada",
    "logic-grid.name-bruno",
    "logic-grid.name-celia",
    "logic-grid.name-dario",
    "logic-grid.name-emil",
    "logic-grid.name-ines",
    "logic-grid.name-jonas",
    "logic-grid.name-mira",
    "logic-grid.name-selma",
    "logic-grid.name-tomas",
)
STEPS = (
    "logic-grid.step-first",
    "logic-grid.step-second",
    "logic-grid.step-third",
    "logic-grid.step-fourth",
    "logic-grid.step-fifth",
)
WHAT: Mapping[Scene, tuple[str, ...]] = {
    "hut": (
        "logic-grid.hut-barometer",
        "logic-grid.hut-compass",
        "logic-grid.hut-rain-gauge",
        "logic-grid.hut-snow-stake",
        "logic-grid.hut-wind-vane",
    ),
    "boats": (
        "logic-grid.boats-cork",
        "logic-grid.boats-rope",
        "logic-grid.boats-salt",
        "logic-grid.boats-slate",
        "logic-grid.boats-timber",
        "logic-grid.boats-wool",
    ),
    "fields": (
        "logic-grid.fields-barley",
        "logic-grid.fields-clover",
        "logic-grid.fields-flax",
        "logic-grid.fields-kale",
        "logic-grid.fields-maize",
        "logic-grid.fields-rye",
    ),
    "colours": (
        "logic-grid.colours-indigo",
        "logic-grid.colours-madder",
        "logic-grid.colours-ochre",
        "logic-grid.colours-saffron",
        "logic-grid.colours-umber",
        "logic-grid.colours-woad",
    ),
}
"""One thing each; every word reads well after a definite article, in the singular."""

SCENES: tuple[Scene, ...] = tuple(WHAT)
TAGS = ("who", "what", "step")
"""What the categories of a scene are, for the wording."""


def categories_of(scene: Scene, size: int, dice: Dice) -> tuple[Category, ...]:
    """Return the three categories of a scene, with `size` members drawn for each."""
    return (
        Category("", tuple(sorted(dice.sample(WHO, size))), False),
        Category("", tuple(sorted(dice.sample(WHAT[scene], size))), False),
        Category("", STEPS[:size], True),
    )
