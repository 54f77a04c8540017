"""The teacher's pictures: found, held to limits, and safe to print.

PNG and JPEG are opened by Pillow, SVG is read by defusedxml. Nothing in a picture may
run, reach out of the file, or fill the memory of the computer that prints it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path as File
from typing import IO, Any, Literal

from boxwright.frozen import frozen_value
from boxwright.game.inside import inside, listed
from boxwright.problems import Problem, Where

PICTURES = "pictures"
MOST_BYTES = 20_000_000
MOST_PIXELS = 40_000_000
MOST_ELEMENTS = 50_000
_BESIDE = (".txt", ".md", ".toml", ".csv", "thumbs.db", "desktop.ini")
Form = Literal["png", "jpeg", "svg"]
_KINDS: dict[str, Form] = {
    ".png": "png", ".jpg": "jpeg", ".jpeg": "jpeg", ".svg": "svg",
}  # fmt: skip
_ORIENTATION, _ON_ITS_SIDE = 0x0112, (5, 6, 7, 8)  # of a photo, as EXIF tells it
SVG = "http://www.w3.org/2000/svg"
_REFUSED = frozenset(
    {"script", "foreignobject", "iframe", "embed", "object", "audio", "video", "handler",
     "listener", "set", "animate", "animatemotion", "animatetransform", "discard"}
)  # fmt: skip
_REACHES = re.compile(
    r"url\s*\(\s*['\"]?\s*(?!#)|@import|expression\s*\(|javascript:", re.IGNORECASE
)
INLINE = re.compile(r"data:image/(png|jpeg);base64,[A-Za-z0-9+/=\s]*")


@frozen_value
class Picture:
    """One picture: its name under pictures/, its file, its format."""

    name: str
    path: File
    format: Form

    def size(self) -> tuple[float, float]:
        """Return width and height as printed, in any one unit; (1, 1) for an SVG without any."""
        if self.format != "svg":
            from PIL import Image

            with Image.open(self.path) as image:
                turned = image.getexif().get(_ORIENTATION, 1) in _ON_ITS_SIDE
                width, height = float(image.width), float(image.height)
            return (height, width) if turned else (width, height)
        return _svg_size(self.path)


def _svg_size(path: File) -> tuple[float, float]:
    from defusedxml.ElementTree import parse  # type: ignore[import-untyped]

    root = parse(path).getroot()
    box = [float(part) for part in re.findall(r"-?[\d.]+", root.get("viewBox", ""))]
    if len(box) == 4 and box[2] > 0 and box[3] > 0:
        return box[2], box[3]
    sides = [re.match(r"\s*([\d.]+)", root.get(name, "")) for name in ("width", "height")]
    width, height = (float(side[1]) if side else 1.0 for side in sides)
    return (width, height) if width > 0 and height > 0 else (1.0, 1.0)


def read_pictures(folder: File) -> tuple[dict[str, Picture], list[Problem]]:
    """Return the pictures of a game folder by name, and what is wrong with others."""
    found: dict[str, Picture] = {}
    problems: list[Problem] = []
    for name in listed(folder / PICTURES):
        if is_beside(name):
            continue
        one = _picture(folder / PICTURES, name)
        if isinstance(one, Picture):
            found[name] = one
        else:
            problems.append(one)
    return found, problems


def _picture(base: File, name: str) -> Picture | Problem:
    where = Where(f"{PICTURES}/{name}")
    path = inside(base, name, where, f"{PICTURES}/")
    if isinstance(path, Problem):
        return path
    form = form_of(name)
    if form is None:
        return Problem.of("picture.no-picture", where, name=name)
    try:
        fault = weight_fault(path.stat().st_size, where, name)
        if fault is None and form == "svg":
            fault = svg_fault(path.read_bytes(), where, name)
        elif fault is None:
            with path.open("rb") as file:
                fault = raster_fault(file, where, name, form)
    except OSError as error:
        return Problem.of("picture.unreadable", where, name=name, why=error.strerror or "?")
    return fault or Picture(name, path, form)


def is_beside(name: str) -> bool:
    """Tell whether a file may lie among pictures that is none: a note, or a system's own."""
    return name.startswith(".") or name.lower().endswith(_BESIDE)


def form_of(name: str) -> Form | None:
    """Return what a picture of that name is; None where it is none that can be printed."""
    return _KINDS.get(File(name).suffix.lower())


def weight_fault(size: int, where: Where, name: str) -> Problem | None:
    """Return the Problem that a picture has too many bytes."""
    if size <= MOST_BYTES:
        return None
    found, most = size // 1_000_000, MOST_BYTES // 1_000_000
    return Problem.of("picture.too-heavy", where, name=name, found=found, most=most)


def raster_fault(file: IO[bytes], where: Where, name: str, form: str) -> Problem | None:
    """Return what is wrong with a PNG or JPEG, if anything is."""
    import warnings

    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(file, formats=[form.upper()]) as image:
                width, height = image.size
                if width * height > MOST_PIXELS:
                    return _too_many_pixels(where, width, height)
                image.load()
    except Image.DecompressionBombError:
        return _too_many_pixels(where, 0, 0)
    except Exception:  # noqa: BLE001 - Pillow's readers raise many sorts on broken files
        return Problem.of("picture.broken", where, name=name, format=form.upper())
    return None


def _too_many_pixels(where: Where, width: int, height: int) -> Problem:
    million = MOST_PIXELS // 1_000_000
    return Problem.of(
        "picture.too-many-pixels", where, name=where.file, width=width, height=height, most=million
    )


def svg_fault(data: bytes, where: Where, name: str) -> Problem | None:
    """Return what is wrong with an SVG, if anything is."""
    from xml.etree.ElementTree import ParseError

    from defusedxml import DefusedXmlException  # type: ignore[import-untyped]
    from defusedxml.ElementTree import fromstring

    if b"<?xml-stylesheet" in data.replace(b"\0", b""):
        return Problem.of("picture.svg-unsafe", where, name=name, found="<?xml-stylesheet")
    try:
        root = fromstring(data, forbid_dtd=False)
    except DefusedXmlException:
        return Problem.of("picture.svg-entity", where, name=name)
    except (ParseError, ValueError, LookupError, RecursionError) as error:
        line = getattr(error, "position", (1, 0))[0]
        at = Where(where.file, (), line)
        return Problem.of("picture.broken", at, name=name, format="SVG")
    if root.tag not in (f"{{{SVG}}}svg", "svg"):
        return Problem.of("picture.broken", where, name=name, format="SVG")
    return next(_unsafe(root, where, name), None)


def _unsafe(root: Any, where: Where, name: str) -> Iterator[Problem]:
    for count, element in enumerate(root.iter()):
        if count > MOST_ELEMENTS:
            yield Problem.of("picture.too-many-shapes", where, name=name, most=MOST_ELEMENTS)
            return
        what = _element_fault(element)
        if what is not None:
            yield Problem.of("picture.svg-unsafe", where, name=name, found=what)


def _element_fault(element: Any) -> str | None:
    """Return the first thing in `element` that acts or reaches out, as written."""
    if not isinstance(element.tag, str):
        return None
    local = element.tag.rpartition("}")[2]
    if local.lower() in _REFUSED:
        return f"<{local}>"
    if local.lower() == "style" and _REACHES.search("".join(element.itertext())):
        return f"<{local}>"
    for attribute, value in element.attrib.items():
        short = attribute.rpartition("}")[2]
        if short.lower().startswith("on") or _leads_out(short.lower(), value):
            return f"{short}="
    return None


def _leads_out(attribute: str, value: str) -> bool:
    if attribute in ("href", "src"):
        return not (value.strip().startswith("#") or INLINE.fullmatch(value.strip()))
    return _REACHES.search(value) is not None
