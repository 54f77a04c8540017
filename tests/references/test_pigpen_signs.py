"""Source: the public encyclopedia article on the pigpen cipher, two copies of it agreeing.

They give one common order (grid A to I, dotted grid J to R, cross S to V, dotted cross W to
Z) and three signs by name: A is inside a backward L, N is a box with a dot, T is a V on its
side. The signs are read off the printed page, not off our tables.
"""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from boxwright.dice import Dice
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.paper.render import render
from boxwright.puzzles import pigpen
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.shelf import kind

DARK = 100


def picture_of(letter: str) -> Image.Image:
    """Return the sign of one letter, cut out of its printed page, ink white on black."""
    made = pigpen.make(
        Answer("letters", (letter,)), pigpen.Options(), Given(level="easier"), Dice(1)
    )
    page = page_for(kind("pigpen"), made.sheet, "sheet", title="-", lang="en")
    (png,) = render([page], Look("a4", 12), "png", ppi=150)
    whole = Image.open(BytesIO(png)).convert("L")
    ink = whole.point(lambda grey: 255 if grey < DARK else 0)
    width, height = ink.size
    middle = ink.crop((0, height // 4, width, height * 3 // 4))
    rows = [bool(middle.crop((0, y, width, y + 1)).getbbox()) for y in range(middle.height)]
    top = rows.index(True)
    low = rows.index(True, top)
    while any(rows[low : low + 20]):
        low += 1
    sign = middle.crop((0, top, width, low))
    box = sign.getbbox()
    assert box is not None
    return sign.crop(box)


def share(sign: Image.Image, left: float, top: float, right: float, low: float) -> float:
    """Return how much of a part of the sign is ink; sides in shares of its width and height."""
    width, height = sign.size
    part = sign.crop((int(left * width), int(top * height), int(right * width), int(low * height)))
    return part.histogram()[255] / (part.width * part.height)


SIDES = {
    "left": (0, 0.1, 0.04, 0.9),
    "right": (0.96, 0.1, 1, 0.9),
    "top": (0.1, 0, 0.9, 0.04),
    "bottom": (0.1, 0.96, 0.9, 1),
}


def walls(sign: Image.Image) -> set[str]:
    return {name for name, part in SIDES.items() if share(sign, *part) > 0.8}


def has_dot(sign: Image.Image) -> bool:
    return share(sign, 0.46, 0.46, 0.54, 0.54) > 0.9


def test_a_stands_inside_a_backward_l() -> None:
    sign = picture_of("A")
    assert walls(sign) == {"right", "bottom"}
    assert not has_dot(sign)


def test_n_is_a_box_with_a_dot() -> None:
    sign = picture_of("N")
    assert walls(sign) == {"left", "right", "top", "bottom"}
    assert has_dot(sign)


def test_t_is_a_v_on_its_side() -> None:
    """Two strokes that meet at one side: apart at the left end, together at the right one."""
    sign = picture_of("T")
    assert walls(sign) == set()
    assert share(sign, 0, 0, 0.3, 0.3) > 0.1
    assert share(sign, 0, 0.7, 0.3, 1) > 0.1
    assert share(sign, 0, 0.4, 0.3, 0.6) == 0
    assert share(sign, 0.8, 0.4, 1, 0.6) > 0.2
    assert share(sign, 0.8, 0, 1, 0.2) == 0


@pytest.mark.parametrize(
    ("letter", "fence", "dot"),
    [
        ("A", 0, False),
        ("I", 0, False),
        ("J", 1, True),
        ("R", 1, True),
        ("S", 2, False),
        ("V", 2, False),
        ("W", 3, True),
        ("Z", 3, True),
    ],
)
def test_the_order_is_the_published_one(letter: str, fence: int, dot: bool) -> None:
    made = pigpen.make(
        Answer("letters", (letter,)), pigpen.Options(), Given(level="easier"), Dice(1)
    )
    found = made.sheet.key.fences[fence]
    assert letter in found.cells
    assert found.dot == dot
