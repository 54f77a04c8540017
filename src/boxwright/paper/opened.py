"""A finished PDF, opened to be looked at: by one thread at a time, since PDFium asks for that."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

_one_at_a_time = threading.RLock()


class Opened:
    """A pypdfium2 document, each page of which is loaded once, however often it is looked at."""

    def __init__(self, document: Any) -> None:
        self._document = document
        self._pages: dict[int, Any] = {}

    def __len__(self) -> int:
        """Return the number of pages."""
        return len(self._document)

    def __getitem__(self, at: int) -> Any:
        """Return the pypdfium2 page `at`, counted from 0."""
        if at not in self._pages:
            self._pages[at] = self._document[at]
        return self._pages[at]

    def chapters(self) -> list[int]:
        """Return the page (from 0) on which each chapter of the outline begins."""
        entries = (entry for entry in self._document.get_toc() if entry.level == 0)
        return [entry.get_dest().get_index() for entry in entries]


@contextmanager
def opened(pdf: bytes) -> Iterator[Opened]:
    """Give the pages of `pdf` to look at; other threads wait. `PdfiumError` if it is none."""
    import pypdfium2

    with _one_at_a_time:
        document = pypdfium2.PdfDocument(pdf)
        try:
            yield Opened(document)
        finally:
            document.close()
