"""How a CSV file is written: the sign between its cells, its line ends, its first bytes.

What its rows say is the business of the content.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from boxwright.game.toml_file import BOM

LARGEST = 5_000_000
"""The most bytes that a table may have."""


def delimiter(text: str) -> str:
    """Return the sign between cells: the one that the first row has more of, outside quotes."""
    first = next((line for line in text.split("\n") if line.strip()), "")
    bare = "".join(first.split('"')[::2])
    return ";" if bare.count(";") > bare.count(",") else ","


def from_rows(rows: Sequence[Sequence[str]], like: bytes = b"") -> bytes:
    """Return `rows` as a file written the way that `like` is."""
    text = io.StringIO()
    between = delimiter(like.decode("utf-8", "replace").replace("\r", "\n"))
    csv.writer(text, delimiter=between, lineterminator="\n").writerows(rows)
    return from_text(text.getvalue(), like)


def from_text(text: str, like: bytes = b"") -> bytes:
    """Return `text` as a file with the line ends and the first bytes of `like`."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if lines and not lines.endswith("\n"):
        lines += "\n"
    ends = "\r\n" if b"\r\n" in like else "\n"
    return (BOM if like.startswith(BOM) else b"") + lines.replace("\n", ends).encode("utf-8")
