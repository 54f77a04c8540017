"""The count-in list: by pictures, so that the group that leaves fills its own tray."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.choose.tray import tray
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
    """Yield what belongs in the tray, each thing with its picture."""
    for one in tray(printing.gear, group):
        yield {
            "name": sentence(printing.read(one.name)),
            "sticker": one.sticker,
            "lock": without_code(printing.devices[one.id]) if one.sort == "lock" else None,
            "mark": list(printing.edition.sheets[one.id].mark) if one.sort == "sheet" else None,
            "box": one.sort == "box",
        }
