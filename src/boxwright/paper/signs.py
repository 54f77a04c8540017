"""Reads the six signs in the foot of a rendered page, by comparing each with all sixteen.

A sign is a field of 16 by 16 dots in four greys, kept as one whole number: a byte a dot,
a bit for each of three greys that it is darker than: two fields differ by as many steps of grey as
their exclusive or has ones.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from boxwright.choose.marks import SIGNS
from boxwright.paper.frame import MARK, Box, Look

if TYPE_CHECKING:
    from PIL import Image

GRID = 16
GREYS = (64, 128, 192)
STEPS = GRID * GRID * len(GREYS)
CHART_PPI = 203.2  # eight dots a millimetre
FAINT = 60  # between darkest and lightest, from which on a pale copy is darkened
BLANK = 6  # steps that dust may set
FAR = STEPS // 6  # a sign further than this from its drawing is not read as that sign
CLEAR = STEPS // 16  # by which the best must beat the second best
FIELD = MARK * 72 / 25.4  # in points, as an SVG counts
_ONE_SIGN = re.compile(r'<g(?: transform="translate\(0 [0-9.]+\)")?>(.*?)</g>', re.DOTALL)

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
    return tuple(read_sign(picture, pixels(picture, p, look.page)) for p in look.mark_places)


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
    from PIL.PngImagePlugin import PngImageFile  # `Image.open` would load all formats' readers

    picture = PngImageFile(BytesIO(_chart("png"))).convert("L")
    sheet = Box(0.0, 0.0, MARK, MARK * len(SIGNS))
    places = (Box(0.0, MARK * at, MARK, MARK) for at in range(len(SIGNS)))
    return {
        name: _dots(picture, pixels(picture, place, sheet))
        for name, place in zip(SIGNS, places, strict=True)
    }


@lru_cache(maxsize=1)
def drawings() -> Mapping[str, str]:
    """Return each sign as the inside of an SVG, on a field of `FIELD` by `FIELD`.

    What is cut out of a sign is white.
    """
    found = _ONE_SIGN.findall(_chart("svg").decode())
    return dict(zip(SIGNS, found, strict=True))


def _chart(form: Literal["png", "svg"]) -> bytes:
    import typst

    sources = {"main.typ": "chart.typ", "marks.typ": "marks.typ"}
    files: Any = {
        name: Path(__file__).with_name(source).read_bytes() for name, source in sources.items()
    }
    drawn = typst.compile(
        files,
        format=form,
        ppi=CHART_PPI,
        ignore_system_fonts=True,
        sys_inputs={"names": json.dumps(SIGNS), "side": str(MARK)},
    )
    return bytes(drawn)


def pixels(picture: Image.Image, box: Box, whole: Box) -> Pixels:
    """Return where `box` lies in a picture of `whole`, which may be stretched a little."""
    wide, high = picture.width / whole.width, picture.height / whole.height
    return box.x * wide, box.y * high, box.right * wide, box.bottom * high


def _dots(picture: Image.Image, where: Pixels) -> int:
    from PIL import Image

    field = picture.resize((GRID, GRID), Image.Resampling.BOX, box=where)
    return int.from_bytes(field.tobytes().translate(_steps(*field.getextrema())), "big")


@lru_cache(maxsize=1024)
def _steps(darkest: int, lightest: int) -> bytes:
    """Return for each grey its bits, where a field goes from `darkest` to `lightest`."""
    if lightest - darkest < FAINT:
        darkest, lightest = 0, 255
    limits = [darkest + limit * (lightest - darkest) / 255 for limit in GREYS]
    return bytes(
        sum((grey < limit) << bit for bit, limit in enumerate(limits)) for grey in range(256)
    )
