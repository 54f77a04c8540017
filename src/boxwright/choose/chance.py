"""Whence all chance of an edition follows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from boxwright.dice import Dice
from boxwright.frozen import frozen_value

FIRST_SET = "a"


@frozen_value
class Chance:
    """A seed, and what was thrown anew since.

    `set` names the set of codes, which groups may share; `throws` tells how often the
    sheet of a clue was thrown anew, and leaves every other sheet as it is. `redraws` tells
    how often the code of a lock was drawn again, where the sheet that its own is drawn on
    could not carry it.
    """

    seed: int
    set: str = FIRST_SET
    throws: Mapping[str, int] = field(default_factory=dict)
    redraws: Mapping[str, int] = field(default_factory=dict)

    @property
    def dice(self) -> Dice:
        """Fresh dice of the seed; what is drawn from is always a child of them."""
        return Dice(self.seed)
