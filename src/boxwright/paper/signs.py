"""Reads the six signs in the foot of a rendered page, by comparing each with all sixteen.

A sign is a field of 16 by 16 dots in four greys, kept as one whole number of three bits
a dot (darker than each of three greys): two fields differ by as many steps of grey as
their exclusive or has ones.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from boxwright.paper.frame import MARK, Box, Look
from boxwright.paper.marks import SIGNS

if TYPE_CHECKING:
    from PIL import Image

GRID = 16
GREYS = (64, 128, 192)
STEPS = GRID * GRID * len(GREYS)
CHART_PPI = 203.2  # eight dots a millimetre
BLANK = 6  # steps that dust may set
FAR = STEPS // 8  # a sign further than this from its drawing is not read as that sign
CLEAR = STEPS // 24  # by which the best must beat the second best

Pixels = tuple[float, float, float, float]


class Reading(NamedTuple):
    """What stands in one place: a sign's name, `""` for nothing, None for something unreadable.

    `off` and `next_off`: steps by which the nearest and the second nearest sign differ.
    """

    sign: str | None
    off: int
    next_off: int


def read_marks(picture: Image.Image, look: Look) -> tuple[Reading, ...]:
    """Return what the six places in the foot of a grey `picture` of a whole page show."""
    scale = picture.width / look.page.width
    return tuple(read_sign(picture, _pixels(place, scale)) for place in look.mark_places)


def read_sign(picture: Image.Image, where: Pixels) -> Reading:
    """Return the sign that fills the box `where` (left, upper, right, lower) of a grey picture."""
    found = _dots(picture, where)
    near = sorted(((found ^ drawn).bit_count(), name) for name, drawn in chart().items())
    (off, name), (next_off, _) = near[:2]
    if found.bit_count() <= BLANK:
        return Reading("", off, next_off)
    sure = off <= FAR and next_off - off >= CLEAR
    return Reading(name if sure else None, off, next_off)


@lru_cache(maxsize=1)
def chart() -> Mapping[str, int]:
    """Return the dots of each sign, drawn by Typst on a sheet of their own."""
    from PIL import Image

    picture = Image.open(BytesIO(_chart_png())).convert("L")
    scale = picture.width / MARK
    places = (Box(0.0, MARK * at, MARK, MARK) for at in range(len(SIGNS)))
    return {
        name: _dots(picture, _pixels(place, scale))
        for name, place in zip(SIGNS, places, strict=True)
    }


def _chart_png() -> bytes:
    import typst

    names = "".join(f'sign("{name}", {MARK}mm), ' for name in SIGNS)
    main = (
        f'#import "/marks.typ": sign\n'
        f"#set page(width: {MARK}mm, height: {MARK * len(SIGNS)}mm, margin: 0mm)\n"
        f"#stack({names})"
    )
    marks = Path(__file__).with_name("marks.typ").read_bytes()
    files: Any = {"main.typ": main.encode(), "marks.typ": marks}
    png = typst.compile(files, format="png", ppi=CHART_PPI, ignore_system_fonts=True)
    return bytes(png)


def _pixels(box: Box, scale: float) -> Pixels:
    return box.x * scale, box.y * scale, box.right * scale, box.bottom * scale


def _dots(picture: Image.Image, where: Pixels) -> int:
    from PIL import Image

    field = picture.resize((GRID, GRID), Image.Resampling.BOX, box=where)
    layers = (field.point(_darker_than(grey), "1").tobytes() for grey in GREYS)
    return int.from_bytes(b"".join(layers), "big")


@lru_cache(maxsize=len(GREYS))
def _darker_than(limit: int) -> list[int]:
    return [255 * (grey < limit) for grey in range(256)]
