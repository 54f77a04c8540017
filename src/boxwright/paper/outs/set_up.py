"""The set-up card: by place and time, one act a line; on its back, what if it won't open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from boxwright.choose.failing import known_faults, spares
from boxwright.choose.setting_up import set_up
from boxwright.choose.steps import Step
from boxwright.game.mechanisms import entry
from boxwright.paper.outs import lines
from boxwright.paper.outs.cautions import cautions
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 10


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the card and its back."""
    yield card_page(printing, "set-up", set_up(printing.gear))
    yield back(printing)


def card_page(printing: Printing, name: str, steps: Sequence[Step]) -> Page:
    """Return a card of `steps`; `name` says which card it is."""
    parts = lines.card(printing, steps, name)
    minded = [printing.said(message) for message in cautions(printing.gear)]
    intro = printing.text(f"card.{name}-intro", n=len(printing.edition.groups))
    labels = {"mind": printing.text("card.mind"), "intro": intro}
    return printing.page(
        "set_up",
        title=printing.text(f"card.{name}-title", title=printing.edition.game.title),
        alt=printing.text("card.code-alt"),
        sheet={"parts": parts, "mind": minded},
        labels=labels,
        prints=[text for text in (*lines.texts(parts), *minded) if text],
        reader=READER,
        flows=True,
    )


def back(printing: Printing) -> Page:
    """Return what to do when a lock won't open, mechanism by mechanism."""
    sorts = [_sort(printing, name) for name in mechanisms(printing)]
    spare = [printing.said(message) for message in _spares(printing)]
    labels = {"intro": printing.text("card.fail-intro")}
    return printing.page(
        "fails",
        title=printing.text("card.fail-title"),
        alt=printing.text("card.code-alt"),
        sheet={"sorts": sorts, "spare": spare},
        labels=labels,
        prints=[text for sort in sorts for text in (sort["title"], *sort["lines"])] + spare,
        reader=READER,
        flows=True,
    )


def mechanisms(printing: Printing) -> tuple[str, ...]:
    """Return the mechanisms in play, each by the first lock that has it."""
    seen: dict[str, str] = {}
    first = printing.edition.groups[0]
    for lock, device in printing.devices.items():
        if not printing.gear.envelope(first, lock):
            seen.setdefault(device.mechanism, lock)
    return tuple(seen.values())


def _sort(printing: Printing, lock: str) -> dict[str, Any]:
    device = printing.devices[lock]
    mine = [id for id, one in printing.devices.items() if one.mechanism == device.mechanism]
    real = (
        printing.gear.sticker(group, id)
        for id in mine
        for group in printing.edition.groups
        if not printing.gear.envelope(group, id)
    )
    stickers = tuple(filter(None, real))
    said = [printing.said(message) for message in entry(device).failures(device)]
    faults = [printing.said(one) for id in mine for one in known_faults(printing.gear, id)]
    return {
        "title": lines.sentence(printing.text(f"mechanism.name-{device.mechanism}")),
        "stickers": printing.text("printout.all", all=stickers),
        "lines": [*said, *faults],
    }


def _spares(printing: Printing) -> Iterator[Message]:
    for lock in printing.edition.game.locks:
        yield from spares(printing.gear, lock)
    yield say("card.fail-last")
