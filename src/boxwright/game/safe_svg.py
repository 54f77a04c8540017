"""An SVG with nothing in it but drawing: only elements and attributes on a list stay.

`url()` and links lead to parts of the same picture alone. Parts that are drawn again and
again (`use`) are counted as often as they are drawn, so that a small file cannot stand for
a picture that never ends.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from boxwright.game.pictures import INLINE, MOST_ELEMENTS, SVG
from boxwright.problems import Problem, Where

XLINK = "http://www.w3.org/1999/xlink"
_ELEMENTS = (  # not read by people
    "svg g defs symbol use title desc switch path rect circle ellipse line polyline "
    "polygon text tspan textPath linearGradient radialGradient stop pattern clipPath "
    "mask marker image style"
)
_LOOKS = (  # not read by people
    "fill fill-opacity fill-rule stroke stroke-width stroke-opacity stroke-linecap "
    "stroke-linejoin stroke-miterlimit stroke-dasharray stroke-dashoffset opacity color "
    "stop-color stop-opacity display visibility clip-path clip-rule mask marker "
    "marker-start marker-mid marker-end font-family font-size font-style font-weight "
    "font-stretch font-variant text-anchor text-decoration letter-spacing word-spacing "
    "line-height dominant-baseline alignment-baseline baseline-shift paint-order "
    "vector-effect shape-rendering overflow white-space writing-mode"
)
_ATTRIBUTES = (  # not read by people
    "id class style transform d x y x1 y1 x2 y2 dx dy r rx ry cx cy fx fy fr width "
    "height viewBox preserveAspectRatio points offset rotate textLength lengthAdjust "
    "startOffset gradientUnits gradientTransform spreadMethod patternUnits "
    "patternContentUnits patternTransform clipPathUnits maskUnits maskContentUnits "
    "markerUnits markerWidth markerHeight refX refY orient version href pathLength"
)
ELEMENTS = frozenset(_ELEMENTS.split())
LOOKS = frozenset(_LOOKS.split())
ATTRIBUTES = LOOKS | frozenset(_ATTRIBUTES.split())
_OUTWARD = re.compile(r"url\s*\(\s*['\"]?\s*(?!#)|\\|@|expression\s*\(|javascript:", re.I)

Inline = Callable[[str, str, Where, str], "str | Problem"]


def safe_svg(data: bytes, where: Where, name: str, inline: Inline) -> bytes | Problem:
    """Return an SVG that `pictures.svg_fault` passed, with nothing but drawing in it.

    `inline` encodes a picture inside of it anew.
    """
    from xml.etree.ElementTree import register_namespace, tostring

    from defusedxml.ElementTree import fromstring  # type: ignore[import-untyped]

    kept = fromstring(data, forbid_dtd=False)
    try:
        kept = _element(kept, where, name, inline)
        drawn = _drawn(kept)
    except _UnsafeError as error:
        return error.problem
    except RecursionError:
        drawn = None
    if drawn is None or drawn > MOST_ELEMENTS:
        return Problem.of("picture.too-many-shapes", where, name=name, most=MOST_ELEMENTS)
    register_namespace("", SVG)
    register_namespace("xlink", XLINK)
    text: bytes = tostring(kept, encoding="utf-8", xml_declaration=True)
    return text


class _UnsafeError(Exception):
    """Carries what makes a picture unsafe out of its depths."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.code)
        self.problem = problem


def _element(found: Any, where: Where, name: str, inline: Inline) -> Any:
    """Return a copy of an element without what is not on the lists."""
    from xml.etree.ElementTree import Element

    local = _local(found.tag)
    kept = Element(f"{{{SVG}}}{local}")
    for attribute, value in found.attrib.items():
        short = _local(attribute)
        if short in ATTRIBUTES and _space(attribute) in ("", XLINK):
            kept.set(attribute, _value(local, short, value, where, name, inline))
    kept.text, kept.tail = found.text, found.tail
    if local == "style" and _OUTWARD.search(found.text or ""):
        raise _UnsafeError(_unsafe("<style>", where, name))
    for child in found:
        if isinstance(child.tag, str) and _is_drawing(child):
            kept.append(_element(child, where, name, inline))
        elif child.tail:
            _add_text(kept, child.tail)
    return kept


def _is_drawing(element: Any) -> bool:
    return _local(element.tag) in ELEMENTS and _space(element.tag) in ("", SVG)


def _add_text(kept: Any, text: str) -> None:
    """Keep what stands behind an element that is left out."""
    if len(kept):
        kept[-1].tail = (kept[-1].tail or "") + text
    else:
        kept.text = (kept.text or "") + text


def _value(
    element: str, attribute: str, value: str, where: Where, name: str, inline: Inline
) -> str:
    """Return what an attribute may say. Raises _UnsafeError where it leads out."""
    if attribute == "href":
        return _link(element, value.strip(), where, name, inline)
    if attribute == "style":
        return ";".join(_declarations(value, where, name))
    if _OUTWARD.search(value):
        raise _UnsafeError(_unsafe(f"{attribute}=", where, name))
    return value


def _declarations(style: str, where: Where, name: str) -> Iterator[str]:
    for one in style.split(";"):
        key, _, value = one.partition(":")
        if key.strip().lower() in LOOKS and value.strip():
            if _OUTWARD.search(value):
                raise _UnsafeError(_unsafe("style=", where, name))
            yield f"{key.strip()}:{value.strip()}"


def _link(element: str, value: str, where: Where, name: str, inline: Inline) -> str:
    if value.startswith("#"):
        return value
    found = INLINE.fullmatch(value) if element == "image" else None
    if found is None:
        raise _UnsafeError(_unsafe("href=", where, name))
    text = inline(found[1], value.partition(",")[2], where, name)
    if isinstance(text, Problem):
        raise _UnsafeError(text)
    return f"data:image/{found[1]};base64,{text}"


def _unsafe(what: str, where: Where, name: str) -> Problem:
    return Problem.of("picture.svg-unsafe", where, name=name, found=what)


def _local(tag: str) -> str:
    return tag.rpartition("}")[2]


def _space(tag: str) -> str:
    return tag[1:].partition("}")[0] if tag.startswith("{") else ""


# How often things are drawn.


def _drawn(root: Any) -> int | None:
    """Return how many elements are drawn, those of `use` as often as used; None for ever."""
    by_id = {one.get("id"): one for one in root.iter() if one.get("id")}
    known: dict[Any, int | None] = {}

    def count(element: Any) -> int | None:
        if element in known:
            return known[element]
        known[element] = None  # met again below itself: it would never end
        total: int | None = 1
        for part in (*element, *_used(element, by_id)):
            more = count(part)
            if more is None or total is None:
                total = None
                break
            total = min(total + more, MOST_ELEMENTS + 1)
        known[element] = total
        return total

    return count(root)


def _used(element: Any, by_id: dict[str, Any]) -> list[Any]:
    if _local(element.tag) != "use":
        return []
    link = element.get("href") or element.get(f"{{{XLINK}}}href") or ""
    target = by_id.get(link.removeprefix("#"))
    return [] if target is None else [target]
