"""Connected components by SciPy (scipy.ndimage.label): the guide's dots, seen on its raster."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy import ndimage

from boxwright.dice import Dice
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import page_for
from boxwright.puzzles.contract import Answer, Given, Made
from boxwright.puzzles.shelf import kind
from tests.puzzles.printed_field import PIXELS, Grey, blots, field_in, page_of

KIND = kind("unseen-ink")
GREY = 190  # pictures on the guide are lighter than ink and darker than this
CLUES = [("427", "ordinary"), ("9999", "hardest")]


def pages(made: Made, look: Look) -> tuple[Grey, Grey]:
    both = [
        page_for(KIND, made.sheet, part, title="A field of pictures", lang="en")
        for part in ("sheet", "guide")
    ]
    sheet, guide = page_of(both, look)
    return sheet, guide


def made_for(code: str, level: Any) -> Made:
    given = Given(level=level)
    return KIND.make(Answer("digits", tuple(code)), KIND.Options(), given, Dice(code))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("code", "level"), CLUES)
def test_the_guide_shows_each_dot_black_and_apart(code: str, level: str, paper: Any) -> None:
    made = made_for(code, level)
    _, guide = pages(made, Look(paper, 18))
    labels, count = blots(field_in(guide).grey)
    assert count == len(made.sheet.guide.dots)
    across = [s[1].stop - s[1].start for s in ndimage.find_objects(labels)]
    assert min(across) > 2.0 * PIXELS
    assert max(across) < 2.6 * PIXELS


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
def test_laid_on_each_other_frame_on_frame_the_pictures_meet(paper: Any, size: Any) -> None:
    sheet, guide = pages(made_for("4273", "hardest"), Look(paper, size))
    upper, lower = field_in(sheet), field_in(guide)
    assert abs(upper.width - lower.width) < 0.2
    assert abs(upper.height - lower.height) < 0.2
    high, wide = (min(a, b) for a, b in zip(upper.grey.shape, lower.grey.shape, strict=True))
    black, grey = upper.grey[:high, :wide] < GREY, lower.grey[:high, :wide] < GREY
    near = ndimage.binary_dilation(grey, iterations=3)
    assert (black & near).sum() > 0.999 * black.sum()


@pytest.mark.parametrize("paper", PAPERS)
def test_each_dot_lies_on_white_paper_of_the_pupils_sheet_and_next_to_its_picture(
    paper: Any,
) -> None:
    """Ink on black print would not glow, and a dot must be nearest to its own picture."""
    sheet, guide = pages(made_for("4273", "hardest"), Look(paper, 18))
    upper, lower = field_in(sheet), field_in(guide)
    high, wide = (min(a, b) for a, b in zip(upper.grey.shape, lower.grey.shape, strict=True))
    print_, dots = upper.grey[:high, :wide] < GREY, lower.grey[:high, :wide] < 100
    assert not (ndimage.binary_dilation(dots, iterations=1) & print_).any()
    pieces, _ = ndimage.label(print_, np.ones((3, 3)))
    labels, count = ndimage.label(dots, np.ones((3, 3)))
    for y, x in ndimage.center_of_mass(dots, labels, range(1, count + 1)):
        down, across = np.nonzero(pieces)
        far = np.hypot(down - y, across - x)
        owner = pieces[down[far.argmin()], across[far.argmin()]]
        others = pieces[down, across] != owner
        assert far[others].min() - far.min() > 0.8 * PIXELS


@pytest.mark.parametrize("paper", PAPERS)
def test_the_guide_and_its_sheet_have_one_ruler_of_a_hundred_millimetres(paper: Any) -> None:
    for printed in pages(made_for("427", "ordinary"), Look(paper, 12)):
        labels, _ = ndimage.label(printed < 128, np.ones((3, 3)))
        widths = [(s[1].stop - s[1].start) / PIXELS for s in ndimage.find_objects(labels)]
        assert sum(abs(width - 100) < 0.5 for width in widths) == 1
