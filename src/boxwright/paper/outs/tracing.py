"""Guides for the teacher's own pen: what is traced onto pupils' sheets before class."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.piles import pieces
from boxwright.paper.outs.clues import part_page
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 8
LIES_ON_SHEETS = True  # line on line, so it looks as they do


def pages(printing: Printing) -> Iterator[Page]:
    """Yield every part that is for the teacher; most games have none."""
    for piece in pieces(printing.edition, "teacher"):
        yield part_page(printing, piece.clue, piece.part)
