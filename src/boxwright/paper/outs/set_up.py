"""The set-up card: by place and time, one act a line; on its back, what if it won't open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from boxwright.choose.fitting import is_envelope
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
    stickers = tuple(tag for id in mine for tag in printing.stickers(id) if not is_envelope(tag))
    said = [printing.said(message) for message in entry(device).failures(device)]
    faults = [
        printing.text("card.fail-known", tag=tag, fault=text)
        for tag, text in _faults(printing, mine)
    ]
    return {
        "title": lines.sentence(printing.text(f"mechanism.name-{device.mechanism}")),
        "stickers": printing.text("printout.all", all=stickers),
        "lines": [*said, *faults],
    }


def _faults(printing: Printing, locks: Sequence[str]) -> Iterator[tuple[str, str]]:
    for lock in locks:
        for group in printing.edition.groups:
            make, tag = printing.gear.make(group, lock), printing.gear.sticker(group, lock)
            if make is not None and tag is not None and make.faults:
                yield tag, make.faults


def _spares(printing: Printing) -> Iterator[Message]:
    gear, game = printing.gear, printing.edition.game
    for lock, one in game.locks.items():
        if one.mechanism == "key":
            having = all(gear.spare(group, lock) for group in printing.edition.groups)
            yield say("card.spare" if having else "card.no-spare", box=game.name_of(one.closes))
    yield say("card.fail-last")
