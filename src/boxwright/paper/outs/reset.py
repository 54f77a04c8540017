"""The reset card: from what one class left behind to the next class coming in."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.setting_up import reset
from boxwright.paper.outs.printing import Printing
from boxwright.paper.outs.set_up import card_page
from boxwright.paper.page import Page
from boxwright.puzzles.contract import Reader

READER: Reader = "teacher"
ORDER = 11


def pages(printing: Printing) -> Iterator[Page]:
    """Yield the card."""
    yield card_page(printing, "reset", reset(printing.gear))
