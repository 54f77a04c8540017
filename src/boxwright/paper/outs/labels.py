"""Labels with sticker numbers: for boxes, locks, keys, tools, and the envelopes of this set."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 7


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the labels, group by group; nothing where nothing has a sticker."""
    found = list(_labels(printing))
    if found:
        yield printing.page(
            "labels",
            title=printing.text("printout.labels-title"),
            alt="",
            sheet={"labels": found},
            labels={"how": printing.text("printout.labels-how")},
            prints=[text for one in found for text in (one["sticker"], one["name"])],
            flows=True,
            cuts=True,
        )


def _labels(printing: Printing) -> Iterator[dict[str, str]]:
    game, gear = printing.edition.game, printing.gear
    for group in printing.edition.groups:
        for id in printing.edition.stickers[group]:
            name = game.name_of(id)
            if id in game.locks and gear.envelope(group, id):
                name = game.name_of(game.locks[id].closes)
            elif id in game.locks:
                name = printing.text(f"mechanism.name-{game.locks[id].mechanism}")
            sticker = printing.read(gear.label(group, id))
            yield {"sticker": sticker, "name": sentence(name)}
