"""A picture that somebody brings, decoded and encoded anew: nothing but what is drawn stays.

PNG and JPEG lose what cameras and programs wrote beside the dots (place, time, owner); a
photo that lies on its side is set upright. SVG keeps elements and attributes that draw;
what acts or leads out of it is refused, and all else is left out. What was encoded here
before comes out as the same bytes.
"""

from __future__ import annotations

import base64
import io
import re
from pathlib import Path as File
from typing import Any

from boxwright.game.pictures import (
    PICTURES,
    form_of,
    is_beside,
    raster_fault,
    svg_fault,
    weight_fault,
)
from boxwright.game.safe_svg import safe_svg
from boxwright.problems import Problem, Where

QUALITY = 92
"""Of a JPEG written anew: no loss that paper would show."""

_SCAN, _END = b"\xff\xda", b"\xff\xd9"
_MARKER = re.compile(rb"\xff(?!\x00)")

_PLAIN_MODES = {"PNG": ("1", "L", "LA", "P", "RGB", "RGBA", "I;16"), "JPEG": ("L", "RGB")}


def encode_anew(folder: File) -> tuple[Problem, ...]:
    """Encode all pictures of a game folder anew; return what is wrong with those that cannot be."""
    problems = []
    for path in sorted((folder / PICTURES).rglob("*")):
        if path.is_dir() or is_beside(path.name):
            continue
        found = safe_picture(path.relative_to(folder / PICTURES).as_posix(), path.read_bytes())
        if isinstance(found, Problem):
            problems.append(found)
        else:
            path.write_bytes(found)
    return tuple(problems)


def safe_picture(name: str, data: bytes) -> bytes | Problem:
    """Return the picture `name` encoded anew from its bytes `data`, or what is wrong with it."""
    where, form = Where(f"pictures/{name}", ("data",)), form_of(name)
    if form is None:
        return Problem.of("picture.no-picture", where, name=name)
    fault = weight_fault(len(data), where, name)
    if fault is not None:
        return fault
    if form != "svg":
        return safe_raster(data, where, name, form.upper())
    fault = svg_fault(data, where, name)
    return fault or safe_svg(data, where, name, inline)


def safe_raster(data: bytes, where: Where, name: str, form: str) -> bytes | Problem:
    """Return a PNG or JPEG (`form`) encoded anew, or what is wrong with it."""
    fault = raster_fault(io.BytesIO(data), where, name, form)
    if fault is not None:
        return fault
    from PIL import Image, ImageOps

    out = io.BytesIO()
    with Image.open(io.BytesIO(data), formats=[form]) as image:
        upright: Any = ImageOps.exif_transpose(image)
        if upright.mode not in _PLAIN_MODES[form]:
            upright = upright.convert("RGBA" if form == "PNG" else "RGB")
        clear = upright.info.get("transparency")
        upright.info = {} if clear is None else {"transparency": clear}
        upright.save(out, form, **({"quality": QUALITY} if form == "JPEG" else {}))
    anew = out.getvalue()
    return data if form == "JPEG" and _is_ours(data, anew) else anew


def _is_ours(data: bytes, anew: bytes) -> bool:
    """Tell whether a JPEG holds what ours hold and no more; each saving would cost it a little."""
    at = anew.rindex(_SCAN)
    scan = at + len(_SCAN) + int.from_bytes(anew[at + 2 : at + 4])
    dots, end = data[scan : -len(_END)], data[-len(_END) :]
    return data[:scan] == anew[:scan] and end == _END and _MARKER.search(dots) is None


def inline(kind: str, text: str, where: Where, name: str) -> str | Problem:
    """Return a picture inside a picture, in base 64 as `text`, encoded anew likewise."""
    try:
        data = base64.b64decode(text)
    except ValueError:
        return Problem.of("picture.broken", where, name=name, format=kind.upper())
    found = safe_raster(data, where, name, kind.upper())
    return found if isinstance(found, Problem) else base64.b64encode(found).decode()
