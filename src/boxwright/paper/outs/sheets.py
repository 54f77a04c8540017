"""The pupils' sheets, clue by clue, each part on a page of its own."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page, page_for
from boxwright.puzzles.contract import Reader

READER: Reader = "pupils"
ORDER = 1


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the pages that pupils get."""
    for clue in printing.edition.sheets:
        yield from pages_of(printing, clue)


def pages_of(printing: Printing, clue: str) -> Iterator[Page]:
    """Yield the pages of one clue that pupils get."""
    edition = printing.edition
    kind, sheet, _ = printing.sheet(clue)
    for part in kind.FACTS.parts:
        if part.reader == "pupils" and getattr(sheet, part.name.replace("-", "_")) is not None:
            yield page_for(
                kind,
                sheet,
                part.name,
                title=edition.game.title,
                lang=edition.game.language,
                mark=edition.mark(clue),
                where=edition.game.clues[clue].source,
                folder=printing.folder,
            )
