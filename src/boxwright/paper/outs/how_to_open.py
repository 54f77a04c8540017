"""How the locks open: a card for each sort in play, with its working parts and no code."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.game.mechanisms import entry
from boxwright.paper.lock_pictures import without_code
from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 3
FOR_EACH_GROUP = True


def pages(printing: Printing) -> Iterator[Page]:
    """Yield one page that flows; locks that are opened in the same words share a card."""
    cards = list(_cards(printing))
    if cards:
        yield printing.page(
            "how_to_open",
            title=printing.text("printout.how-to-open-title"),
            alt=printing.text("printout.parts-alt"),
            sheet={"cards": cards},
            labels={"force": printing.text("printout.rule-force")},
            prints=[text for card in cards for text in (card["title"], *card["lines"])],
            flows=True,
        )


def _cards(printing: Printing) -> Iterator[dict[str, Any]]:
    found: dict[tuple[str, ...], dict[str, Any]] = {}
    for group in printing.edition.groups:
        for lock, device in printing.gear.devices[group].items():
            lines = tuple(_lines(printing, group, lock))
            envelope = printing.gear.envelope(group, lock)
            name = "printout.envelope" if envelope else f"mechanism.name-{device.mechanism}"
            picture = None if envelope else without_code(device)
            card = found.setdefault(
                (name, *lines),
                {"title": sentence(printing.text(name)), "stickers": [], "lines": lines}
                | {"numbers": list(range(1, len(lines) + 1))}
                | {"picture": picture},
            )
            sticker = printing.gear.label(group, lock)
            card["stickers"] += [printing.read(sticker)] if sticker else []
    yield from found.values()


def _lines(printing: Printing, group: str, lock: str) -> Iterator[str]:
    """Yield how a group's lock is opened."""
    if printing.gear.envelope(group, lock):
        yield printing.text("printout.envelope-how")
        return
    device, make = printing.gear.devices[group][lock], printing.gear.make(group, lock)
    for said in entry(device).opening(device, make.reading_line if make else None):
        yield printing.said(said)
