"""Steps as lines with boxes to tick: what the set-up card and the reset card share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Any

from boxwright.choose.setting_up import minutes
from boxwright.choose.step_words import how, said
from boxwright.choose.steps import BEFORE, Act, Block, Step
from boxwright.paper.outs.printing import Printing

ONCE: frozenset[Act] = frozenset(
    {"print", "print-tables", "print-own", "cut", "fold", "read", "keep"}
)
"""Done once, however many groups there are."""


def card(printing: Printing, steps: Sequence[Step], name: str) -> list[dict[str, Any]]:
    """Return the parts of a card by place and time, each with its blocks and their lines."""
    left = sum(minutes(tuple(steps), block) for block in _blocks(steps))
    times: list[tuple[str, tuple[Block, ...]]] = [
        ("before", BEFORE), ("room", ("room",)), ("arrival", ("arrival",)),
    ]  # fmt: skip
    parts = []
    for time, blocks in times:
        shown = [block for block in _blocks(steps) if block in blocks]
        found = []
        for block in shown:
            taken = minutes(tuple(steps), block)
            left -= taken
            found.append(_block(printing, steps, block, taken, left))
        title = printing.text(f"card.{name}-{time}")
        parts.append({"title": title, "time": time, "blocks": found})
    return parts


def _blocks(steps: Sequence[Step]) -> list[Block]:
    return list(dict.fromkeys(step.block for step in steps))


def _block(
    printing: Printing, steps: Sequence[Step], block: Block, taken: int, left: int
) -> dict[str, Any]:
    mine = [step for step in steps if step.block == block]
    return {
        "name": block,
        "title": printing.text(f"card.block-{block}"),
        "minutes": printing.text("card.minutes", n=taken, left=left),
        "sections": list(_sections(printing, block, mine)),
    }


def _sections(printing: Printing, block: Block, steps: list[Step]) -> Iterator[dict[str, Any]]:
    """Yield lines under the box that they are about; without a title where there is none."""
    told: set[tuple[str, ...]] = set()
    for about, found in groupby(steps, lambda step: step.at if block == "boxes" else ""):
        lines = [line(printing, step, told) for step in found]
        title = printing.edition.game.name_of(about) if about else ""
        yield {"title": title, "stickers": _stickers(printing, about), "lines": lines}


def _stickers(printing: Printing, id: str) -> str:
    return printing.text("printout.all", all=printing.stickers(id)) if id else ""


def line(printing: Printing, step: Step, told: set[tuple[str, ...]]) -> dict[str, Any]:
    """Return one step as a line; what was `told` of a make of lock is not told again.

    A lock is drawn with its code where it is first set or tested.
    """
    more = tuple(printing.said(message) for message in how(printing.gear, step))
    key = (step.act, *_without_code(printing, step, more))
    shown = more if key not in told or step.act == "fetch" else ()
    drawn = step.act in ("set", "test") and ("drawn", step.thing) not in told
    told |= {key, ("drawn", step.thing)} if drawn else {key}
    clue, _, part = step.thing.partition("/")
    return {
        "text": sentence(printing.said(said(printing.gear, step))),
        "short": step.act == "fetch" and not shown,
        "ticks": list(ticks(printing, step)),
        "mark": list(printing.edition.sheets[clue].mark) if part else None,
        "how": [" ".join(shown)] if shown else [],
        "code": printing.picture(step.thing) if drawn else None,
    }


def sentence(text: str) -> str:
    """Return `text` with its first letter as a sentence has it."""
    return text[:1].upper() + text[1:]


def _without_code(printing: Printing, step: Step, more: Iterable[str]) -> Iterator[str]:
    """Yield what is told, but for the code: the same for every lock of a make."""
    code = printing.written(step.thing) if step.thing in printing.devices else None
    yield from (text.replace(code, "") if code else text for text in more)


def ticks(printing: Printing, step: Step) -> Iterator[str]:
    """Yield the label of each box to tick: the sticker, else the group where there are several."""
    if step.act in ONCE:
        yield ""
        return
    for group in step.groups:
        several = group if len(printing.edition.groups) > 1 else ""
        yield printing.gear.sticker(group, step.thing) or several


def texts(parts: Iterable[dict[str, Any]]) -> Iterator[str]:
    """Yield everything that must be read on the card."""
    for part in parts:
        yield part["title"]
        for block in part["blocks"]:
            yield from (block["title"], block["minutes"])
            for section in block["sections"]:
                yield section["title"]
                for one in section["lines"]:
                    yield from (one["text"], *one["how"])
