"""A picture that somebody brings, decoded and encoded anew: nothing but what is drawn stays.

PNG and JPEG lose what cameras and programs wrote beside the dots (place, time, owner); a
photo that lies on its side is set upright. SVG keeps elements and attributes that draw;
what acts or leads out of it is refused, and all else is left out.
"""

from __future__ import annotations

import base64
import io
from typing import Any

from boxwright.game.pictures import form_of, raster_fault, svg_fault, weight_fault
from boxwright.game.safe_svg import safe_svg
from boxwright.problems import Problem, Where

QUALITY = 92
"""Of a JPEG written anew: no loss that paper would show."""

_PLAIN_MODES = {"PNG": ("1", "L", "LA", "P", "RGB", "RGBA", "I;16"), "JPEG": ("L", "RGB")}


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
    return out.getvalue()


def inline(kind: str, text: str, where: Where, name: str) -> str | Problem:
    """Return a picture inside a picture, in base 64 as `text`, encoded anew likewise."""
    try:
        data = base64.b64decode(text)
    except ValueError:
        return Problem.of("picture.broken", where, name=name, format=kind.upper())
    found = safe_raster(data, where, name, kind.upper())
    return found if isinstance(found, Problem) else base64.b64encode(found).decode()
