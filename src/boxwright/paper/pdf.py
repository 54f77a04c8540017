"""Print settings into a finished PDF: one side of the paper, no scaling; nothing else changes.

Typst writes a file's catalogue as its last object, with preferences for viewers in it. What
is put into those moves nothing but the table behind them, whose place the file's end tells.
So the file needs no taking apart, which would cost more than all else that is done to it.
"""

from __future__ import annotations

SETTINGS = b"/Duplex/Simplex/PrintScaling/None"
_PREFERENCES = b"/ViewerPreferences<<"
_TABLE = b"startxref\n"


def with_print_settings(pdf: bytes) -> bytes:
    """Return `pdf`, as Typst wrote it, with viewer preferences for printing.

    A sheet scaled by the printer no longer fits the film that lies on it, and a clue on
    the back of another sheet is in the wrong box. `ValueError` where it is put together
    in another way.
    """
    end = pdf.rindex(_TABLE)
    table, closing = pdf[end + len(_TABLE) :].split(b"\n", 1)
    last = pdf.rindex(b" obj\n", 0, int(table)) + len(b" obj\n")
    if not pdf.startswith(b"<</Type/Catalog", last) or pdf[int(table) :][:4] != b"xref":
        raise ValueError("the catalogue is not the last object of the PDF")
    at = pdf.index(_PREFERENCES, last, int(table)) + len(_PREFERENCES)
    moved = b"%d\n" % (int(table) + len(SETTINGS))
    return pdf[:at] + SETTINGS + pdf[at:end] + _TABLE + moved + closing
