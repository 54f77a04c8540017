"""Wheels with colours, each with its name and a sign of its own: `red blue green`."""

from __future__ import annotations

from boxwright.game.mechanisms.named_wheels import NamedWheels


class ColourWheels(NamedWheels):
    """Colours by name, so that nobody depends on seeing them alike."""

    name = "colour-wheels"


ENTRY = ColourWheels()
