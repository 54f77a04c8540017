"""A bar-code reader's word on bars that should say nothing, in every bar code of plain bars.

Bars from top to bottom make a picture whose pixel rows are all alike. So no code of squares
or of stacked rows can stand there (each has rows that differ), and none that lies on its
side (a line down the picture is all ink or all paper). Neither is looked for: that would take
six times as long. The printed page is read back later.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

PIXELS = 8  # for each millimetre: about 200 dots an inch
ROWS = 24
MARGIN = 80  # pixels of white on either side
INK, PAPER = b"\x00", b"\xff"


def says_nothing(runs: Sequence[float]) -> bool:
    """Tell whether a reader finds no code in bars of these widths (bar, space, …, in mm)."""
    import zxingcpp  # late: only making needs it

    row, x = PAPER * MARGIN, 0.0
    for at, width in enumerate(runs):
        count = round((x + width) * PIXELS) - round(x * PIXELS)
        row += (PAPER if at % 2 else INK) * count
        x += width
    row += PAPER * MARGIN
    wanted: Any = zxingcpp.BarcodeFormat.LinearCodes
    picture = memoryview(row * ROWS).cast("B", (ROWS, len(row)))
    found = zxingcpp.read_barcodes(picture, formats=wanted, try_rotate=False)
    return not found
