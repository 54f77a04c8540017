"""All commands by their names, family by family."""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.game.commands import (
    adding,
    files,
    kit,
    remedies,
    removing,
    room,
    telling,
    things,
    versions,
)
from boxwright.game.commands.command import Command

FAMILIES = (telling, adding, things, removing, versions, kit, room, files, remedies)

COMMANDS: Mapping[str, Command] = {one.name: one for family in FAMILIES for one in family.COMMANDS}
