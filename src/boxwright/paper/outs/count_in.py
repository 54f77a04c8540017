"""The count-in list: by pictures, so that the group that leaves fills its own tray."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.choose.piles import pieces
from boxwright.paper.lock_pictures import without_code
from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 4


def pages(printing: Printing) -> Iterator[Page]:
    """Yield a page for each group, since each has stickers of its own."""
    for group in printing.edition.groups:
        things = list(_things(printing, group))
        yield printing.page(
            "count_in",
            title=printing.text("printout.count-in-title"),
            alt=printing.text("printout.parts-alt"),
            sheet={"things": things},
            labels={
                "group": printing.text("paper.group"),
                "how": printing.text("printout.count-in-how"),
            },
            prints=[one["name"] for one in things] + [one["sticker"] for one in things],
            flows=True,
        )


def _things(printing: Printing, group: str) -> Iterator[dict[str, Any]]:
    """Yield what belongs in the tray: locks, sheets, items, boxes."""
    game, gear = printing.edition.game, printing.gear
    for id, device in printing.devices.items():
        if not gear.envelope(group, id) and not gear.built_in(group, id):
            name = printing.text(f"mechanism.name-{device.mechanism}")
            yield _thing(name, gear.sticker(group, id), lock=without_code(device))
    for piece in pieces(printing.edition):
        mark = printing.edition.sheets[piece.clue].mark
        yield _thing(printing.text("printout.count-in-sheet"), None, mark=list(mark))
    for id, item in game.items.items():
        yield _thing(item.name, gear.sticker(group, id))
    for id, box in game.boxes.items():
        if not gear.paper_box(group, id):
            yield _thing(box.name, gear.sticker(group, id), box=True)


def _thing(
    name: str, sticker: str | None, *, lock: Any = None, mark: Any = None, box: bool = False
) -> dict[str, Any]:
    return {
        "name": sentence(name),
        "sticker": sticker or "",
        "lock": lock,
        "mark": mark,
        "box": box,
    }
