"""Is every piece of text on a page to be seen, or does something lie over it?

A PDF keeps the text under a white or black patch; only the picture of the page shows
that it is gone. So along each piece of text the picture must change again and again; a
stretch where it does not, and where the PDF says that letters stand, is covered.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from PIL import Image

STRETCH = 0.55  # of the text's height: more than a space, less than most letters
LEAST = 3  # pixels
MOST = 0.7  # of a letter must lie in such a stretch for it to count as hidden

Corners = tuple[float, float, float, float]


def covered(text_page: Any, picture: Image.Image, height: float) -> Iterator[str]:
    """Yield the letters of a pypdfium2 text page that its grey `picture` does not show.

    `height` is the page's, in points. Sees what hides a letter of common width; a single
    narrow one (i, l) under a patch of its own size goes unseen.
    """
    scale = picture.height / height
    for at in range(text_page.count_rects()):
        left, low, right, high = text_page.get_rect(at)
        box = (left * scale, (height - high) * scale, right * scale, (height - low) * scale)
        for stretch in flat_stretches(picture, box):
            hidden = _letters(text_page, _in_points(stretch, scale, height))
            if hidden:
                yield hidden


def flat_stretches(picture: Image.Image, box: Corners) -> Iterator[Corners]:
    """Yield the parts of `box` (pixels) where nothing changes along its longer side."""
    from PIL import Image, ImageChops

    left, top, right, low = int(box[0]), int(box[1]), int(box[2]) + 1, int(box[3]) + 1
    piece = picture.crop((left, top, right, low))
    upright = piece.height > 1.5 * piece.width
    if upright:
        piece = piece.transpose(Image.Transpose.TRANSPOSE)
    width, height = piece.size
    steps = ImageChops.difference(
        piece.crop((0, 0, width - 1, height)), piece.crop((1, 0, width, height))
    )
    changes = steps.resize((max(1, width - 1), 1), Image.Resampling.BOX).tobytes()
    for start, end in _runs_of_nought(changes, max(LEAST, int(STRETCH * height))):
        if upright:
            yield left, top + start, right, top + end
        else:
            yield left + start, top, left + end, low


def _runs_of_nought(values: bytes, least: int) -> Iterator[tuple[int, int]]:
    start = 0
    for end in [*(at for at, value in enumerate(values) if value), len(values)]:
        if end - start >= least:
            yield start, end + 1
        start = end + 1


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
