"""Signs of level strokes are seen for what they are: no patch lies over an equals sign."""

from __future__ import annotations

import pytest

from boxwright.dice import Dice
from boxwright.paper import covered
from boxwright.paper.frame import SIZES, Look, Size
from boxwright.paper.page import Page, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.problems import Problem
from boxwright.puzzles import shelf
from boxwright.puzzles.contract import Answer, Given

TEXT = ("7 x 8 = ?", "6 + 7 = 13 — or 12?", "a_b – c−d")


def read(size: Size) -> list[Problem]:
    kind = shelf.kind("own-sheet")
    answer, options = Answer("digits", ("1",)), kind.Options(text=TEXT)
    made = kind.make(answer, options, Given(), Dice(1))
    page: Page = page_for(kind, made.sheet, "sheet", title="Sums", lang="en")
    look = Look("a4", size)
    return read_back(render([page], look), [page], look)


@pytest.mark.parametrize("size", SIZES)
def test_sums_and_dashes_are_read_back(size: Size) -> None:
    assert read(size) == []


def test_without_the_exception_they_would_be_taken_for_covered(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(covered, "FLAT", frozenset())
    assert any(read(size) for size in SIZES)
