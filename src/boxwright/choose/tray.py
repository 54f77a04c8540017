"""What belongs in a group's tray: what the group that leaves counts in, by pictures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from boxwright.choose.gear import Gear
from boxwright.choose.piles import pieces
from boxwright.frozen import frozen_value
from boxwright.problems import Message, say

Sort = Literal["lock", "sheet", "item", "box"]


@frozen_value
class Counted:
    """One thing of a tray: a lock, item or box by its id, a sheet by that of its clue."""

    sort: Sort
    id: str
    name: str | Message
    sticker: str = ""


def tray(gear: Gear, group: str) -> Iterator[Counted]:
    """Yield what a group's tray holds: locks, sheets, items, boxes."""
    game = gear.edition.game
    for id, device in gear.devices[group].items():
        if not gear.envelope(group, id) and not gear.built_in(group, id):
            name = say(f"mechanism.name-{device.mechanism}")
            yield Counted("lock", id, name, gear.sticker(group, id) or "")
    for piece in pieces(gear.edition):
        yield Counted("sheet", piece.clue, say("printout.count-in-sheet"))
    for id, item in game.items.items():
        yield Counted("item", id, item.name, gear.sticker(group, id) or "")
    for id, box in game.boxes.items():
        if not gear.paper_box(group, id):
            yield Counted("box", id, box.name, gear.sticker(group, id) or "")
