"""The rules card: what a group must know before it touches anything."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.game.hinting import hints_allowed
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.problems import Message, say
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 2
FOR_EACH_GROUP = True


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the card."""
    rules = [printing.said(rule) for rule in _rules(printing)]
    yield printing.page(
        "rules",
        title=printing.text("printout.rules-title"),
        alt=printing.text("printout.marks-alt"),
        sheet={"rules": rules, "printing": printing.edition.printing},
        labels={"marks": printing.text("printout.rule-marks")},
        prints=rules,
        flows=True,
    )


def _rules(printing: Printing) -> Iterator[Message]:
    game = printing.edition.game
    yield say("printout.rule-together")
    yield say("printout.rule-force")
    yield say("printout.rule-tray")
    yield say("printout.rule-bounds" if printing.gear.hiding else "printout.rule-table")
    if any(item.tool is not None and item.tool.startswith("uv") for item in game.items.values()):
        yield say("printout.rule-torch")
    if any(printing.gear.envelope(g, lock) for g in printing.edition.groups for lock in game.locks):
        yield say("printout.envelope-how")
    count = hints_allowed(game) if printing.edition.sheets else 0
    yield say("printout.rule-hints", n=count) if count else say("printout.rule-no-hints")
