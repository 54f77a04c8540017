"""Wheels with drawn signs, by their names: `star moon anchor`."""

from __future__ import annotations

from boxwright.game.mechanisms.named_wheels import NamedWheels


class SymbolWheels(NamedWheels):
    """Signs by name; a string of faces takes each character as a sign."""

    name = "symbol-wheels"


ENTRY = SymbolWheels()
