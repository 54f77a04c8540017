"""Does everything on a page lie where a page has room for it?

Read off the finished PDF, object by object: Typst lets content stick out of its block
and limits what it measures to the room there is, whereas a PDF says where each line and
letter truly lies, even off the paper. So nothing is clipped unseen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from ctypes import byref, c_float, c_int
from math import ceil
from typing import Any

from boxwright.paper.frame import Box, Look
from boxwright.paper.opened import Opened
from boxwright.paper.outlines import reach
from boxwright.paper.page import Page
from boxwright.paper.spans import spans
from boxwright.problems import Problem, say
from boxwright.text import mm_from_points, points_from_mm

SLACK = 0.5  # millimetres: half a line's thickness, and the overhang of a letter
# Typst counts a line of text from the height of capitals to the baseline; what rises and
# hangs beyond those is less than this share of the text's size.
LETTERS = 0.3
LONG_TITLE = 600  # letters times points: about what fills a line; a longer title takes two

Corners = tuple[float, float, float, float]  # left, low, right, high: points from the lower left


def object_boxes(page: Any) -> Iterator[Box]:
    """Yield the box of every object on a pypdfium2 page, in millimetres from its top left."""
    for item, bounds in _bounded(page):
        yield _Stroke().box(item, bounds, page.get_height())


def objects_on(page: Any) -> Iterator[Any]:
    """Yield PDFium's handle of every object on a pypdfium2 page."""
    import pypdfium2.raw as pdfium

    raw, give = page.raw, pdfium.FPDFPage_GetObject  # looked up once: pages have many objects
    for at in range(pdfium.FPDFPage_CountObjects(raw)):
        yield give(raw, at)


def _bounded(page: Any) -> Iterator[tuple[Any, Corners]]:
    """Yield every object that has bounds, with these as PDFium tells them."""
    import pypdfium2.raw as pdfium

    sides = left, low, right, high = c_float(), c_float(), c_float(), c_float()
    given, tell = tuple(map(byref, sides)), pdfium.FPDFPageObj_GetBounds
    for item in objects_on(page):
        if tell(item, *given):
            yield item, (left.value, low.value, right.value, high.value)


class _Stroke:
    """Asks PDFium how a path is drawn."""

    def __init__(self) -> None:
        self.filled, self.stroked, self.thickness = c_int(), c_int(), c_float()
        self.mode = byref(self.filled), byref(self.stroked)
        self.width = byref(self.thickness)

    def box(self, item: Any, bounds: Corners, height: float) -> Box:
        """Return the box of an object with these bounds, on a page so many points tall.

        PDFium's bounds of a path hold the points that guide its curves, and the whole
        thickness of its line on each side, of which half is drawn there: too much, where
        it matters.
        """
        import pypdfium2.raw as pdfium

        is_path = pdfium.FPDFPageObj_GetType(item) == pdfium.FPDF_PAGEOBJ_PATH
        found = reach(item) if is_path else None
        left, low, right, high = found or bounds
        more = self.half(item) if found else 0.0
        return Box(
            mm_from_points(left - more),
            mm_from_points(height - high - more),
            mm_from_points(right - left + 2 * more),
            mm_from_points(high - low + 2 * more),
        )

    def half(self, item: Any) -> float:
        """Return half the thickness of a path's line in points; nought where none is drawn."""
        import pypdfium2.raw as pdfium

        if not pdfium.FPDFPath_GetDrawMode(item, *self.mode) or not self.stroked.value:
            return 0.0
        pdfium.FPDFPageObj_GetStrokeWidth(item, self.width)
        return self.thickness.value / 2


def overflows(document: Opened, pages: Sequence[Page], look: Look) -> list[Problem]:
    """Return a problem for each of `pages` on which something sticks out of its room."""
    taken = spans(document, pages)
    if taken is None:
        raise ValueError(f"{len(pages)} pages were laid out as {len(document)}")
    return [
        problem
        for page, sheets in zip(pages, taken, strict=True)
        for at in sheets
        for problem in _out_of(document[at], page, look)
    ]


def _out_of(printed: Any, page: Page, look: Look) -> Iterator[Problem]:
    room = _room(look)
    homes = [room, look.marks, look.rule, *_extras(page, look)]
    astray = [box for box in _outside(homes, printed) if not (page.cuts and _is_cut(box, look))]
    wide = max((_beyond(box.x, box.right, room.x, room.right) for box in astray), default=0.0)
    tall = max((_beyond(box.y, box.bottom, room.y, room.bottom) for box in astray), default=0.0)
    body = look.body
    if wide > SLACK:
        yield _problem("paper.too-wide", page, look, body.width + wide, body.width)
    if tall > SLACK:
        yield _problem("paper.too-tall", page, look, body.height + tall, body.height)


def _outside(homes: Sequence[Box], printed: Any) -> Iterator[Box]:
    """Yield the boxes that none of `homes` holds: few of many, so the rest is passed by quickly.

    What is within one by PDFium's bounds, which are never too small, need not be asked how
    it is drawn.
    """
    height, stroke = printed.get_height(), _Stroke()
    limits = [_limits(home, height) for home in homes]
    for item, bounds in _bounded(printed):
        left, low, right, high = bounds
        for first, bottom, last, top in limits:
            if first <= left and bottom <= low and right <= last and high <= top:
                break
        else:
            box = stroke.box(item, bounds, height)
            if not any(home.holds(box, SLACK) for home in homes):
                yield box


def _limits(home: Box, height: float) -> Corners:
    """Return between what lies all that `home` holds, on a page so many points tall."""
    return (
        points_from_mm(home.x - SLACK),
        height - points_from_mm(home.bottom + SLACK),
        points_from_mm(home.right + SLACK),
        height - points_from_mm(home.y - SLACK),
    )


def _is_cut(box: Box, look: Look) -> bool:
    """Tell whether a box is a line to cut along."""
    return min(box.width, box.height) < SLACK and look.printable.holds(box, SLACK)


def _extras(page: Page, look: Look) -> Iterator[Box]:
    if page.reader == "teacher":
        yield look.strip
    if page.flows:
        yield look.number
    if page.ruler:
        ruler = look.ruler
        yield Box(ruler.x, ruler.y - ruler.height / 2, ruler.width, ruler.height)


def _room(look: Look) -> Box:
    """Return where a page's content may be, with what letters need above and below."""
    body, more = look.body, LETTERS * mm_from_points(look.size)
    return Box(body.x, body.y - more, body.width, body.height + 2 * more)


def _beyond(start: float, end: float, first: float, last: float) -> float:
    return max(first - start, end - last, 0.0)


def _problem(code: str, page: Page, look: Look, found: float, has: float) -> Problem:
    long = len(page.title) * look.size > LONG_TITLE
    return Problem.of(
        code,
        page.where,
        title=page.title,
        part=page.part,
        size=look.size,
        paper=say(f"paper.{look.paper}"),
        found=ceil(found),
        has=int(has),
        less=say(f"{code}-title" if long else f"{code}-less"),
    )
