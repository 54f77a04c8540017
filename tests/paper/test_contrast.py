"""In grey, as a school's copier prints: ink stays dark, paper white, and nothing in between.

The measure is WCAG 2.2's contrast ratio, (L1 + 0.05) / (L2 + 0.05) with relative
luminance (W3C, Web Content Accessibility Guidelines); 7 is its level AAA for text.
"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

import pytest
from PIL import Image

from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.readback import read_back
from boxwright.paper.render import render

Maker = Callable[..., Page]


def luminance(rgb: tuple[int, ...]) -> float:
    shares = [value / 255 for value in rgb[:3]]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [(0, 255, 21), (119, 255, 4.4781), (89, 255, 7.0047)],
)
def test_the_measure_agrees_with_published_ratios(one: int, other: int, ratio: float) -> None:
    assert contrast((one,) * 3, (other,) * 3) == pytest.approx(ratio, abs=1e-4)


def picture(page: Page, look: Look) -> Image.Image:
    return Image.open(BytesIO(render([page], look, "png", ppi=150)[0])).convert("RGB")


def test_a_pupils_page_is_black_and_white_alone(page: Maker, look: Look) -> None:
    found = picture(page(), look).getcolors(1 << 24) or []
    assert all(max(rgb) - min(rgb) <= 2 for _, rgb in found if isinstance(rgb, tuple))


def test_ink_on_a_pupils_page_is_as_dark_as_ink_gets(page: Maker, look: Look) -> None:
    grey = picture(page(), look).convert("L").histogram()
    dark, between = sum(grey[:64]), sum(grey[64:192])
    assert grey[255] > 0.9 * sum(grey)
    assert dark > between  # what is between is the soft edge of letters and lines


def test_the_edge_strip_reads_in_grey(page: Maker) -> None:
    look = Look()
    made = page(reader="teacher", words={"teacher": "For the teacher"})
    colour = picture(made, look)
    at = (round(12 / 25.4 * 150), round(50 / 25.4 * 150))
    for image in (colour, colour.convert("L").convert("RGB")):
        strip = image.getpixel(at)
        assert isinstance(strip, tuple)
        assert contrast(strip, (255, 255, 255)) >= 7


def test_a_grey_print_reads_back_whole(page: Maker, look: Look) -> None:
    pages = [page(), page(reader="teacher", words={"teacher": "For the teacher"})]
    assert read_back(render(pages, look), pages, look) == []  # which looks at grey pictures only
