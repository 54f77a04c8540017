"""Steps as lines with boxes to tick: what the set-up card and the reset card share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from boxwright.choose import card as cards
from boxwright.choose.card import Bunch, Line, Section
from boxwright.choose.step_words import said
from boxwright.choose.steps import Step
from boxwright.paper.outs.printing import Printing


def card(printing: Printing, steps: Sequence[Step], name: str) -> list[dict[str, Any]]:
    """Return the parts of a card by place and time, each with its blocks and their lines."""
    return [
        {
            "title": printing.text(f"card.{name}-{part.time}"),
            "time": part.time,
            "blocks": [_block(printing, bunch) for bunch in part.bunches],
        }
        for part in cards.card(printing.gear, steps)
    ]


def _block(printing: Printing, bunch: Bunch) -> dict[str, Any]:
    return {
        "name": bunch.name,
        "title": printing.text(f"card.block-{bunch.name}"),
        "minutes": printing.text("card.minutes", n=bunch.minutes, left=bunch.left),
        "sections": [_section(printing, section) for section in bunch.sections],
    }


def _section(printing: Printing, section: Section) -> dict[str, Any]:
    """Return lines under the box that they are about; without a title where there is none."""
    box = section.about
    return {
        "title": printing.edition.game.name_of(box) if box else "",
        "stickers": printing.text("printout.all", all=printing.stickers(box)) if box else "",
        "lines": [_line(printing, line) for line in section.lines],
    }


def _line(printing: Printing, line: Line) -> dict[str, Any]:
    step = line.step
    clue, _, part = step.thing.partition("/")
    names = [printing.read(cards.tick_name(printing.gear, step, tick)) for tick in step.ticks]
    return {
        "text": sentence(printing.said(said(printing.gear, step))),
        "short": step.act == "fetch" and not line.how,
        "ticks": names,
        "mark": list(printing.edition.sheets[clue].mark) if part else None,
        "how": [" ".join(map(printing.said, line.how))] if line.how else [],
        "code": printing.picture(step.thing) if line.drawn else None,
    }


def sentence(text: str) -> str:
    """Return `text` with its first letter as a sentence has it."""
    return text[:1].upper() + text[1:]


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
