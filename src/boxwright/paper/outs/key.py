"""The teacher's key: each sheet by its signs, where it lies, what it opens, the code."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.problems import say
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 2
HEADS = ("mark", "lies", "opens", "code")


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the one page."""
    edition = printing.edition
    rows = [_row(printing, clue) for clue in edition.sheets]
    labels = {head: printing.text(f"printout.head-{head}") for head in HEADS}
    labels["teacher"] = printing.text("paper.teacher")
    labels["how"] = printing.text("printout.key-how")
    yield printing.page(
        "key",
        title=printing.text("printout.key-title", title=edition.game.title),
        alt=printing.text("printout.key-alt"),
        sheet={"rows": rows, "printing": edition.printing},
        labels=labels,
        prints=[text for row in rows for text in (row["lies"], row["opens"], row["code"])],
        reader=READER,
    )


def _row(printing: Printing, clue: str) -> dict[str, Any]:
    kept = printing.edition.sheets[clue]
    gives = printing.edition.game.clues[clue].gives
    places = dict.fromkeys(printing.place(place) for place in kept.parts.values())
    return {
        "mark": kept.mark,
        "lies": printing.text("printout.all", all=tuple(places)),
        "opens": _opens(printing, gives),
        "code": printing.written(gives) or "",
    }


def _opens(printing: Printing, gives: str) -> str:
    lock = printing.edition.game.locks.get(gives)
    if lock is None:
        return printing.edition.game.name_of(gives)
    return printing.text(
        "printout.opens",
        lock=say(f"mechanism.name-{lock.mechanism}"),
        tags=printing.stickers(gives),
        box=printing.edition.game.name_of(lock.closes),
    )
