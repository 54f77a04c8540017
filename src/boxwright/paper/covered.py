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
UPRIGHT = 1.5  # text taller than this times its width runs up or down the page
MOST = 0.7  # of a letter must lie in such a stretch for it to count as hidden

Corners = tuple[float, float, float, float]


def covered(text_page: Any, picture: Image.Image, height: float) -> Iterator[str]:
    """Yield the letters of a pypdfium2 text page that its grey `picture` does not show.

    `height` is the page's, in points. Sees what hides a letter of common width; a single
    narrow one (i, l) under a patch of its own size goes unseen.
    """
    scale = picture.height / height
    across, along = _steps(picture, (1, 0)), None
    for at in range(text_page.count_rects()):
        left, low, right, high = text_page.get_rect(at)
        box = (left * scale, (height - high) * scale, right * scale, (height - low) * scale)
        upright = high - low > UPRIGHT * (right - left)
        if upright:
            along = along or _steps(picture, (0, 1))
        steps = along if upright and along else across
        for stretch in _flat_stretches(steps, box, upright):
            hidden = _letters(text_page, _in_points(stretch, scale, height))
            if hidden:
                yield hidden


def _steps(picture: Image.Image, by: tuple[int, int]) -> Image.Image:
    """Return where `picture` differs from itself, moved by a pixel."""
    from PIL import ImageChops

    return ImageChops.difference(picture, ImageChops.offset(picture, *by))


def _flat_stretches(steps: Image.Image, box: Corners, upright: bool) -> Iterator[Corners]:
    """Yield the parts of `box` (pixels) in which no column, or row if upright, has a step."""
    from PIL import Image

    left, top = max(0, int(box[0])), max(0, int(box[1]))
    right, low = min(steps.width, int(box[2]) + 1), min(steps.height, int(box[3]) + 1)
    if right <= left or low <= top:
        return
    line = (1, low - top) if upright else (right - left, 1)
    changes = steps.resize(line, Image.Resampling.BOX, box=(left, top, right, low)).tobytes()
    least = max(LEAST, int(STRETCH * min(right - left, low - top)))
    for flat in re.finditer(b"\x00{%d,}" % least, changes):
        start, end = flat.span()
        yield (
            (left, top + start, right, top + end)
            if upright
            else (left + start, top, left + end, low)
        )


def _in_points(box: Corners, scale: float, height: float) -> Corners:
    """Return a box of pixels in points: left, bottom, right, top."""
    left, top, right, low = (side / scale for side in box)
    return left, height - low, right, height - top


def _letters(text_page: Any, where: Corners) -> str:
    """Return the letters that lie in the box `where` for the most part."""
    left, low, right, high = where
    step = min(right - left, high - low) / 4
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
    return letter if whole > 0 and wide * tall >= MOST * whole else ""
