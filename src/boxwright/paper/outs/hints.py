"""Hint slips to fold in three, one for each clue, and the tickets that buy their parts."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.game.hinting import hints_allowed
from boxwright.paper.outs import clues
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 5
FOR_EACH_GROUP = True
PARTS = ("first", "second", "third")


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the slips, then as many tickets as one group gets; nothing where there are none."""
    count = hints_allowed(printing.edition.game)
    slips = list(_slips(printing)) if count else []
    if not slips:
        return
    labels = {part: printing.text(f"printout.hint-{part}") for part in PARTS}
    yield printing.page(
        "hints",
        title=printing.text("printout.hints-title"),
        alt=printing.text("printout.hints-alt"),
        sheet={"slips": slips, "count": count, "printing": printing.edition.printing},
        labels=labels
        | {
            "how": printing.text("printout.hints-how"),
            "tickets": printing.text("printout.tickets-how", n=count),
            "ticket": printing.text("printout.ticket"),
        },
        prints=[hint for slip in slips for hint in slip["hints"]],
        flows=True,
        cuts=True,
    )


def _slips(printing: Printing) -> Iterator[dict[str, list[str]]]:
    for clue in printing.order:
        found = clues.hints(printing, clue)
        if found:
            yield {"mark": list(printing.edition.mark(clue).signs), "hints": list(found)}
