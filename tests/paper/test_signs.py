"""The signs in the foot are told apart: from print, from a copier, in grey."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pypdfium2
import pytest
from PIL import Image, ImageFilter, ImageOps

from boxwright.choose.marks import SIGNS, Mark
from boxwright.dice import Dice
from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.readback import PPI, seen
from boxwright.paper.render import render
from boxwright.paper.signs import CLEAR, FAR, chart, drawings, read_marks

Maker = Callable[..., Page]
Row = tuple[str, ...]
ROWS: list[Row] = [SIGNS[at : at + 6] for at in (0, 5, 10)]


def picture(page: Maker, look: Look, signs: tuple[str, ...], ppi: float = 110) -> Image.Image:
    a, b, c, d, e, f = signs
    made = page(mark=Mark((a, b, c), (d, e, f)))
    return seen(pypdfium2.PdfDocument(render([made], look))[0], ppi)[0]


def speckled(image: Image.Image) -> Image.Image:
    """Return the picture with one dot in fifty turned over, as dust and toner do."""
    dice, pixels = Dice(5), image.copy()
    for _ in range(image.width * image.height // 50):
        at = dice.below(image.width), dice.below(image.height)
        pixels.putpixel(at, 0 if image.getpixel(at) == 255 else 255)
    return pixels


WORSE: dict[str, Callable[[Image.Image], Image.Image]] = {
    "as it is": lambda image: image,
    "blurred": lambda image: image.filter(ImageFilter.GaussianBlur(1.2)),
    "pale": lambda image: image.point(lambda grey: 90 + grey * 165 // 255),
    "copied hard": lambda image: image.filter(ImageFilter.GaussianBlur(1)).point(
        lambda grey: 255 * (grey > 150)
    ),
    "moved by half a pixel": lambda image: image.transform(
        image.size, Image.Transform.AFFINE, (1, 0, 0.5, 0, 1, 0.5), Image.Resampling.BILINEAR
    ),
    "speckled": speckled,
}


def test_every_sign_is_read_in_every_place_on_every_paper_and_size(page: Maker, look: Look) -> None:
    # A sign's dots fall otherwise on the picture's in each place, so all places count.
    rows = [(*SIGNS[at:], *SIGNS[:at])[:6] for at in range(len(SIGNS))]
    marks = [Mark(row[:3], row[3:]) for row in rows]  # type: ignore[arg-type]
    printed = pypdfium2.PdfDocument(render([page(mark=mark) for mark in marks], look))
    for number, row in enumerate(rows):
        found = read_marks(seen(printed[number], PPI)[0], look)
        assert tuple(reading.sign for reading in found) == row


@pytest.mark.parametrize("how", WORSE)
@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_every_sign_outlives_a_copier(page: Maker, row: Row, how: str) -> None:
    worse = WORSE[how](picture(page, Look(), row, 150))
    assert tuple(r.sign for r in read_marks(worse, Look())) == row


def test_no_two_signs_are_near_each_other() -> None:
    drawn = chart()
    apart = [(a ^ b).bit_count() for a, b in combinations(drawn.values(), 2)]
    assert min(apart) >= FAR + CLEAR // 2


def test_a_blank_foot_reads_as_nothing(page: Maker) -> None:
    bare, _ = seen(pypdfium2.PdfDocument(render([page(mark=None)], Look()))[0], 110)
    assert [r.sign for r in read_marks(bare, Look())] == [""] * 6


def test_what_is_no_sign_is_not_taken_for_one(page: Maker) -> None:
    whole = picture(page, Look(), ROWS[0])
    assert [r.sign for r in read_marks(ImageOps.invert(whole), Look())] == [None] * 6


def test_every_sign_is_drawn_on_its_own_for_screens() -> None:
    found = drawings()
    assert tuple(found) == SIGNS
    assert len(set(found.values())) == len(SIGNS)
    assert all(one.startswith("<path") and "<g" not in one for one in found.values())
