"""Changes to a game by name: `perform` one, and `COMMANDS` tells what there is.

A command asks for a few values, changes the game's files as a person would, keeps remarks
and order, and goes into the game's history. None makes a game worse: where the outcome
would have faults that the game has not now, nothing is written and they are told.
"""

from __future__ import annotations

from boxwright.game.commands.command import Command
from boxwright.game.commands.performing import perform
from boxwright.game.commands.registry import COMMANDS

__all__ = ["COMMANDS", "Command", "perform"]
