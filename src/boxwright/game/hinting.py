"""How many hints a group may ask for."""

from __future__ import annotations

from math import ceil

from boxwright.game.arranged import ArrangedGame

# Hints for each lock that has a code, by the age of the youngest: common practice, no source.
SHARES = ((9, 1.0), (13, 2 / 3), (99, 1 / 2))
LINES = 3
"""Hints for one clue; more than that for every clue together there are none."""


def hints_allowed(game: ArrangedGame) -> int:
    """Return the number that the game gives; `auto`: from its locks and the youngest's age.

    Where clues lead to things and places more than to locks, clues are counted instead.
    """
    most = LINES * len(game.clues)
    if game.hints != "auto":
        return min(game.hints, most)
    locks = sum(lock.mechanism != "key" for lock in game.locks.values())
    share = next(share for age, share in SHARES if game.ages[0] <= age)
    return min(ceil(max(locks, len(game.clues) / 2) * share), most)
