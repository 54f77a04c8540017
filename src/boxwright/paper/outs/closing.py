"""The closing sheet: the end of the story, and a line for every group; nobody is ranked."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 8
LINES = 12
"""Lines to write on, shared out among the groups: from two to nine each."""


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the one sheet that all groups complete together."""
    game, groups = printing.edition.game, len(printing.edition.groups)
    lines = max(2, min(9, LINES // groups))
    yield printing.page(
        "closing",
        title=game.title,
        alt="",
        sheet={
            "title": game.title,
            "paragraphs": game.story.closing,
            "lines": [lines] * groups,
        },
        labels={
            "ask": printing.text("printout.closing-ask", n=groups),
            "line": printing.text("printout.closing-line"),
        },
        prints=game.story.closing,
        flows=True,
    )
