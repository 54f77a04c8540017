"""A finished PDF, opened to be looked at: by one thread at a time, since PDFium asks for that."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

_one_at_a_time = threading.RLock()


@contextmanager
def opened(pdf: bytes) -> Iterator[Any]:
    """Give the pypdfium2 document of `pdf`; other threads wait. `PdfiumError` if it is none."""
    import pypdfium2

    with _one_at_a_time:
        document = pypdfium2.PdfDocument(pdf)
        try:
            yield document
        finally:
            document.close()
