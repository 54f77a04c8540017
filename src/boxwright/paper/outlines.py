"""How far a drawn path truly reaches: its curves themselves, not the points that guide them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from ctypes import byref, c_float
from itertools import chain
from math import sqrt
from typing import Any

Point = tuple[float, float]
NEARLY = 1e-9  # below which a curve's turning is none


def reach(item: Any) -> tuple[float, float, float, float] | None:
    """Return left, low, right and high of a PDFium path in points; None where it has no points.

    The thickness of its line is left out.
    """
    points = list(_drawn(item))
    if not points:
        return None
    across, up = [x for x, _ in points], [y for _, y in points]
    return min(across), min(up), max(across), max(up)


def _drawn(item: Any) -> Iterator[Point]:
    """Yield the ends of a path's pieces, and where its curves turn, as they stand on the page."""
    import pypdfium2.raw as pdfium

    matrix = pdfium.FS_MATRIX()
    if not pdfium.FPDFPageObj_GetMatrix(item, byref(matrix)):
        return
    curve: list[Point] = []
    last: Point | None = None
    for at in range(pdfium.FPDFPath_CountSegments(item)):
        segment = pdfium.FPDFPath_GetPathSegment(item, at)
        point = _placed(segment, matrix)
        if pdfium.FPDFPathSegment_GetType(segment) != pdfium.FPDF_SEGMENT_BEZIERTO:
            yield point
            last = point
            continue
        curve.append(point)
        if len(curve) == 3:
            yield point
            yield from turns((last or curve[0], *curve))
            last, curve = point, []


def _placed(segment: Any, matrix: Any) -> Point:
    """Return where a piece of a path ends on the page."""
    import pypdfium2.raw as pdfium

    x, y = c_float(), c_float()
    pdfium.FPDFPathSegment_GetPoint(segment, byref(x), byref(y))
    return (
        matrix.a * x.value + matrix.c * y.value + matrix.e,
        matrix.b * x.value + matrix.d * y.value + matrix.f,
    )


def turns(curve: Sequence[Point]) -> Iterator[Point]:
    """Yield the points of a cubic Bézier curve (start, two guides, end) where it turns back."""
    for share in chain(*(_shares(*axis) for axis in zip(*curve, strict=True))):
        if 0.0 < share < 1.0:
            yield _at(curve, share)


def _shares(start: float, first: float, second: float, end: float) -> Iterator[float]:
    """Yield where along a curve one coordinate stands still: the roots of its derivative."""
    a = end - start + 3 * (first - second)
    b = 2 * (start - 2 * first + second)
    c = first - start
    if abs(a) < NEARLY:
        if abs(b) > NEARLY:
            yield -c / b
        return
    inside = b * b - 4 * a * c
    if inside >= 0:
        root = sqrt(inside)
        yield from ((-b + root) / (2 * a), (-b - root) / (2 * a))


def _at(curve: Sequence[Point], share: float) -> Point:
    rest = 1.0 - share
    weights = (rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3)
    across = sum(weight * point[0] for weight, point in zip(weights, curve, strict=True))
    up = sum(weight * point[1] for weight, point in zip(weights, curve, strict=True))
    return across, up
