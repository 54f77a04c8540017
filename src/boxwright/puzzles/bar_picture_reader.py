"""A bar-code reader's word on bars that should say nothing, in every bar code it knows."""

from __future__ import annotations

from collections.abc import Sequence

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
    return not zxingcpp.read_barcodes(memoryview(row * ROWS).cast("B", (ROWS, len(row))))
