"""A page to print, of a kind that only the tests have."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boxwright.choose.marks import Mark
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import Page

KINDS = Path(__file__).with_name("kinds")
LOOKS = [Look(paper, size) for paper in PAPERS for size in SIZES]

Maker = Callable[..., Page]


def make_page(
    *,
    template: str = "rows",
    numbers: tuple[int, ...] = (3, 14, 15, 92),
    lines: tuple[str, ...] = ("At noon the needle stood still.",),
    words: dict[str, str] | None = None,
    **more: Any,
) -> Page:
    given: dict[str, Any] = {
        "template": KINDS / f"{template}.typ",
        "part": "sheet",
        "sheet": {"numbers": list(numbers), "lines": list(lines)},
        "words": {"task": "Read the numbers from left to right.", "group": "Group"} | (words or {}),
        "title": "The needle’s diary",
        "alt": "Four squares in a row, each with a number.",
        "mark": Mark(("kite", "bell", "oar"), ("moon", "gate", "leaf")),
        "prints": lines,
    }
    return Page(**(given | more))


@pytest.fixture(name="page")
def page_maker() -> Maker:
    """Give the function that makes a page, so that a test names only what matters to it."""
    return make_page


@pytest.fixture(params=LOOKS, ids=lambda look: f"{look.paper}-{look.size}")
def look(request: pytest.FixtureRequest) -> Look:
    """Every paper in every size."""
    found: Look = request.param
    return found
