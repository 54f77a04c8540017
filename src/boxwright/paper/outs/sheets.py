"""The pupils' sheets: one file for each place, and all in one for the office, with the copies."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.piles import Pile, piles
from boxwright.choose.step_words import going_to
from boxwright.paper.outs.clues import part_page
from boxwright.paper.outs.printing import File, Printing
from boxwright.paper.page import Page
from boxwright.problems import say
from boxwright.puzzles.contract import Reader
from boxwright.puzzles.shelf import kind

READER: Reader = "pupils"
ORDER = 1
FOR_EACH_GROUP = True


def files(printing: Printing) -> Iterator[File]:
    """Yield the office's file, then a pile a file."""
    found = [(pile, pile_pages(printing, pile)) for pile in piles(printing.edition)]
    if found:
        sheets = tuple(page for _, pages in found for page in pages)
        yield File("teacher", (_office(printing, [pile for pile, _ in found]), *sheets))
    yield from (File(READER, pages, f"-{pile.name}") for pile, pages in found)


def pages(printing: Printing) -> Iterator[Page]:
    """Yield every page that pupils get, pile by pile."""
    for pile in piles(printing.edition):
        yield from pile_pages(printing, pile)


def pile_pages(printing: Printing, pile: Pile) -> tuple[Page, ...]:
    """Return the pages of one pile."""
    return tuple(part_page(printing, one.clue, one.part) for one in pile.pieces)


def _office(printing: Printing, found: list[Pile]) -> Page:
    """Return the page that tells an office what to print how often."""
    rows = [_row(printing, pile) for pile in found]
    texts = [text for row in rows for text in (str(row["file"]), str(row["goes"]))]
    copies = len(printing.edition.groups)
    labels = {
        "copies": printing.text("printout.office-copies", n=copies),
        "how": printing.text("printout.office-how"),
        "mark": printing.text("printout.office-mark"),
    }
    if any(kind(one.kind).FACTS.laid_on for one in printing.edition.sheets.values()):
        labels["ruler"] = printing.text("printout.office-ruler")
    return printing.page(
        "office",
        title=printing.text("printout.office-title", title=printing.edition.game.title),
        alt=printing.text("card.code-alt"),
        sheet={"rows": rows, "printing": printing.edition.printing},
        labels=labels,
        prints=texts,
        reader="teacher",
        flows=True,
    )


def _row(printing: Printing, pile: Pile) -> dict[str, object]:
    goes = say("step.to-several") if pile.place is None else going_to(printing.gear, pile.place)
    return {
        "file": f"{printing.text('printout.sheets')}-{pile.name}",
        "goes": printing.said(goes),
        "marks": [printing.edition.sheets[piece.clue].mark for piece in pile.pieces],
    }
