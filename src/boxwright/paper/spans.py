"""Which sheets of paper a page took: one, unless it flows.

A page that flows begins where its title stands in the document's outline, and takes all
sheets up to the next page's.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from boxwright.paper.opened import Opened
from boxwright.paper.page import Page


def spans(document: Opened, pages: Sequence[Page]) -> list[range] | None:
    """Return for each of `pages` its sheets (from 0) in a finished PDF.

    None where the document has more or fewer sheets than the pages can have taken.
    """
    if not any(page.flows for page in pages):
        return (
            [range(at, at + 1) for at in range(len(pages))] if len(document) == len(pages) else None
        )
    titled = iter(document.chapters())
    starts, at = [], 0
    for page in pages:
        if page.title.strip():
            at = next(titled, at)
        starts.append(at)
        at += 1
    found = [range(first, last) for first, last in pairwise([*starts, len(document)])]
    fits = starts[:1] == [0] and all(
        len(one) >= 1 if page.flows else len(one) == 1
        for page, one in zip(pages, found, strict=True)
    )
    return found if fits else None
