"""A printed field of pictures as an array of greys, found again by its frame."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.render import render
from boxwright.puzzles.picture_field import Field

PPI = 150.0
PIXELS = PPI / 25.4  # to a millimetre
INK = 128  # darker than this is ink
TOUCHING = np.ones((3, 3), dtype=int)  # pixels that meet at a corner belong together

Grey = NDArray[np.uint8]


@dataclass(frozen=True)
class Printed:
    """The inside of the frame, without its line; `left` and `top` tell where it began, in mm."""

    grey: Grey
    width: float
    height: float
    left: float
    top: float

    def place(self, field: Field, x: float, y: float) -> tuple[float, float]:
        """Return the pixel (down, across) of a sheet's place, in a field drawn `height` high."""
        return (y * self.height / field.height - self.top) * PIXELS, (x - self.left) * PIXELS


def page_of(pages: list[Page], look: Look) -> list[Grey]:
    """Return pages as arrays of greys."""
    pictures = render(pages, look, "png", ppi=PPI)
    return [np.asarray(Image.open(BytesIO(one)).convert("L")) for one in pictures]


def field_in(grey: Grey, darkest: int = INK) -> Printed:
    """Return the inside of the largest frame on a page."""
    labels, _ = ndimage.label(grey < darkest, TOUCHING)
    slices: list[Any] = ndimage.find_objects(labels)
    down, across = max(slices, key=lambda s: (s[0].stop - s[0].start) * (s[1].stop - s[1].start))
    rim = round(1.0 * PIXELS)
    inside = grey[down.start + rim : down.stop - rim, across.start + rim : across.stop - rim]
    line = 0.8 / 72 * 25.4
    height = (down.stop - down.start) / PIXELS - line
    width = (across.stop - across.start) / PIXELS - line
    begin = rim / PIXELS - line / 2
    return Printed(inside, width, height, begin, begin)


def blots(grey: Grey, darkest: int = INK) -> tuple[NDArray[np.int32], int]:
    """Return the connected pieces of ink by number from 1, and how many there are."""
    labels, count = ndimage.label(grey < darkest, TOUCHING)
    return labels, int(count)
