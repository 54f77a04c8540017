"""Is every piece of text on a page to be seen, or does something lie over it?

A PDF keeps the text under a white or black patch; only the picture of the page shows
that it is gone. So along each piece of text the picture must change again and again; a
stretch where it does not, and where the PDF says that letters stand, is covered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from PIL import Image

STRETCH = 0.55  # of the text's height: more than a space, less than most letters
LEAST = 3  # pixels
EVERY = 3  # rows, of which the first is looked at first
UPRIGHT = 1.5  # text taller than this times its width runs up or down the page ...
TALL = 24.0  # ... if it is longer than this, in points: a single letter is not
MOST = 0.7  # of a letter must lie in such a stretch for it to count as hidden
FLAT = frozenset("-‐‑–—―−=≡_")  # signs of level strokes, along which nothing changes

Corners = tuple[float, float, float, float]


def covered(text_page: Any, picture: Image.Image, grey: bytes, height: float) -> Iterator[str]:
    """Yield the letters of a pypdfium2 text page that its `picture` does not show.

    `grey` are the picture's bytes, `height` is the page's, in points. Sees what hides a
    letter of common width; a single narrow one (i, l) under a patch of its own size goes
    unseen, and so does a dash or an equals sign, which looks like its patch along its strokes.
    """
    scale = picture.height / height
    across = _Rows(*picture.size, grey)
    for at in range(text_page.count_rects()):
        left, low, right, high = text_page.get_rect(at)
        box = (left * scale, (height - high) * scale, right * scale, (height - low) * scale)
        if high - low > max(TALL, UPRIGHT * (right - left)):
            stretches = _flat_upright(picture, box)
        else:
            stretches = across.flat(box)
        for stretch in stretches:
            hidden = _letters(text_page, _in_points(stretch, scale, height))
            if hidden:
                yield hidden


class _Rows:
    """A grey picture as rows of bytes."""

    def __init__(self, width: int, height: int, grey: bytes) -> None:
        self.width, self.height, self.bytes = width, height, grey

    def flat(self, box: Corners) -> Iterator[Corners]:
        """Yield the parts of `box` (pixels) in which no row changes from pixel to pixel.

        A row is taken as one whole number, and held against itself moved by a pixel; every
        third row first, for most text shows all its letters in those.
        """
        left, top = max(0, int(box[0])), max(0, int(box[1]))
        right, low = min(self.width, int(box[2]) + 1), min(self.height, int(box[3]) + 1)
        if right - left < LEAST or low <= top:
            return
        flat = re.compile(b"\x00{%d,}" % max(LEAST, int(STRETCH * (low - top))))
        steps, seen = 0, b""
        for first in range(top, top + EVERY):
            for start in range(first * self.width, low * self.width, EVERY * self.width):
                row = int.from_bytes(self.bytes[start + left : start + right], "big")
                steps |= row ^ (row >> 8)
            seen = steps.to_bytes(right - left, "big")[1:]  # the first has none before it
            if not flat.search(seen):
                return
        for found in flat.finditer(seen):
            start, end = found.span()
            yield left + start, top, left + end + 1, low


def _flat_upright(picture: Image.Image, box: Corners) -> Iterator[Corners]:
    """Yield the parts of `box` in which no column changes from pixel to pixel.

    Only what is in the box is turned: a whole page takes as long as all else.
    """
    from PIL import Image

    first, top = max(0, int(box[0])), max(0, int(box[1]))
    piece = picture.crop(
        (first, top, min(picture.width, int(box[2]) + 1), min(picture.height, int(box[3]) + 1))
    )
    turned = piece.transpose(Image.Transpose.TRANSPOSE)
    rows = _Rows(*turned.size, turned.tobytes())
    for start, left, end, right in rows.flat((0.0, 0.0, *turned.size)):
        yield first + left, top + start, first + right, top + end


def _in_points(box: Corners, scale: float, height: float) -> Corners:
    """Return a box of pixels in points: left, bottom, right, top."""
    left, top, right, low = (side / scale for side in box)
    return left, height - low, right, height - top


def _letters(text_page: Any, where: Corners) -> str:
    """Return the letters that lie in the box `where` for the most part."""
    left, low, right, high = where
    step = min(right - left, high - low) / 2
    across, up = right - left >= high - low, (low + high) / 2
    places = int((right - left if across else high - low) / step)
    seen: dict[int, None] = {}
    for place in range(places + 1):
        x, y = (left + place * step, up) if across else ((left + right) / 2, low + place * step)
        index = text_page.get_index(x, y, 1.0, high - low if across else right - left)
        if index is not None:
            seen[index] = None
    return "".join(_if_hidden(text_page, index, where) for index in seen)


def _if_hidden(text_page: Any, index: int, where: Corners) -> str:
    left, low, right, high = text_page.get_charbox(index)
    letter: str = text_page.get_text_range(index, 1).strip()
    wide = max(0.0, min(right, where[2]) - max(left, where[0]))
    tall = max(0.0, min(high, where[3]) - max(low, where[1]))
    whole = (right - left) * (high - low)
    hidden = whole > 0 and wide * tall >= MOST * whole
    return letter if hidden and letter not in FLAT else ""
