"""The remedy that a finding brings along, applied."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from boxwright.game.commands.asked import Asked, Short, Value, filed
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.write import with_edits
from boxwright.problems import Edit, Message, Problem, refuse, say

Step = Short | Annotated[int, Field(ge=0, le=9999)]


class RemedyApply(Asked):
    """An `Edit`: set `path` to `value` (None removes it), or rename its last step to `key`."""

    file: Literal["game.toml", "kit.toml", "room.toml"]
    path: Annotated[tuple[Step, ...], Field(min_length=1, max_length=10)]
    value: Value = None
    key: Short | None = None


def _apply(desk: Desk, asked: RemedyApply) -> Message:
    one = Edit(asked.file, asked.path, filed(asked.value), asked.key)
    found = with_edits(desk.folder, asked.file, [one])
    if isinstance(found, Problem):
        refuse(found)
    desk.put(asked.file, found[2])
    return say("change.remedied", id=str(asked.path[:2][-1]))


COMMANDS = (Command("remedy.apply", RemedyApply, _apply),)
