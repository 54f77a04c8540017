"""Reads back what was printed, as a pupil, a scanner and a printer would meet it.

Runs in every build. It shares with the printing only where things stand and what the
pages were to say; what they do say comes out of the finished file.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from ctypes import create_string_buffer
from typing import TYPE_CHECKING, Any

from boxwright.fonts import faces
from boxwright.paper.covered import covered
from boxwright.paper.fits import objects_on, overflows
from boxwright.paper.frame import PRINT_MARGIN, Box, Look
from boxwright.paper.opened import Opened, opened
from boxwright.paper.page import Page, gated
from boxwright.paper.signs import Reading, pixels, read_marks
from boxwright.paper.spans import spans
from boxwright.paper.texts import absent, numbers_in, stray_numbers
from boxwright.problems import Arg, Message, Problem, Refused, Where, say
from boxwright.text import POINTS_PER_INCH, mm_from_points

if TYPE_CHECKING:
    from PIL import Image

PPI = 110.0
FINE_PPI = 300.0  # for a bar code that is not found at the first glance
SIZE_SLACK = 0.2
INK = 224  # grey below this is ink; paper is 255


def read_back(pdf: bytes, pages: Sequence[Page], look: Look) -> list[Problem]:
    """Return all that is wrong with `pdf`, held against the `pages` it should show.

    Looked at: count and size of the pages; every text of `page.texts`; numbers that are
    nobody's (on pupils' pages); text that is covered; ink in the margin; blank pages; the
    signs in the foot; bar codes; fonts that are not in the file. A text counts as there
    when its letters follow one another in the file, whatever the line breaks.
    """
    import pypdfium2

    try:
        with opened(pdf) as document:
            return list(read(document, pages, look))
    except pypdfium2.PdfiumError:
        return [Problem.of("print.damaged", Where(""))]


def prove(pdf: bytes, pages: Sequence[Page], look: Look) -> int:
    """Return the number of sheets of paper of a `pdf` just made, looked at in every way.

    `Refused` where something does not fit its page, or where `read_back` finds fault.
    """
    with opened(pdf) as document:
        problems = overflows(document, pages, look) or list(read(document, pages, look))
        sheets = len(document)
    if problems:
        raise Refused(problems)
    return sheets


def read(document: Opened, pages: Sequence[Page], look: Look) -> Iterator[Problem]:
    """Yield what `read_back` finds, in an opened PDF."""
    taken = spans(document, pages)
    if taken is None:
        where = pages[0].where if pages else Where("")
        yield Problem.of("print.pages", where, n=len(pages), found=len(document))
        return
    known = faces()
    for page, sheets in zip(pages, taken, strict=True):
        reader = _Reader(sheets.start + 1, gated(page, known)[0], look)
        yield from reader.read([document[at] for at in sheets])
    for name in fonts_not_embedded(document):
        yield Problem.of("print.font", Where(""), font=name)


class _Reader:
    """Holds one page against what it should be."""

    def __init__(self, number: int, page: Page, look: Look) -> None:
        self.number, self.page, self.look = number, page, look

    def problem(self, code: str, **args: Arg) -> Problem:
        about: dict[str, Arg] = {"page": self.number, "title": self.page.title, **args}
        said = (Message(code, about), Message(f"{code}.remedy", about))
        return Problem(code, self.page.where, *said)

    def read(self, sheets: Sequence[Any]) -> Iterator[Problem]:
        first, texts = self.number, []
        scanned: list[str] = []
        for self.number, printed in enumerate(sheets, first):
            yield from self.size(printed)
            picture, grey = seen(printed, PPI)
            text_page = printed.get_textpage()
            texts.append(text_page.get_text_range())
            for hidden in covered(text_page, picture, grey, printed.get_height()):
                yield self.problem("print.covered", text=hidden)
            yield from self.ink(picture, grey)
            yield from self.mark(read_marks(picture, self.look))
            scanned += scan(grey, picture.size)
        self.number = first
        yield from self.texts("\n".join(texts))
        yield from self.codes(sheets, scanned)

    def size(self, printed: Any) -> Iterator[Problem]:
        found = tuple(mm_from_points(side) for side in printed.get_size())
        wanted = (self.look.page.width, self.look.page.height)
        if any(abs(a - b) > SIZE_SLACK for a, b in zip(found, wanted, strict=True)):
            yield self.problem("print.size", found=_sides(*found), expected=_sides(*wanted))

    def texts(self, text: str) -> Iterator[Problem]:
        for lost in absent(self.page.texts, text):
            yield self.problem("print.text", text=lost)
        if self.page.reader != "teacher":
            known = numbers_in([self.page.sheet, *self.page.texts])
            for number in stray_numbers(text, known):
                yield self.problem("print.figure", number=number)

    def ink(self, picture: Image.Image, grey: bytes) -> Iterator[Problem]:
        _, top, _, low = pixels(picture, self.look.body, self.look.page)
        black = grey.find(b"\0", int(top) * picture.width, int(low) * picture.width) >= 0
        if not black and not _has_ink(picture, self.look.body, self.look):
            yield self.problem("print.blank")
        if any(_has_ink(picture, edge, self.look) for edge in margins(self.look)):
            yield self.problem("print.margin", margin=int(PRINT_MARGIN))

    def mark(self, readings: Sequence[Reading]) -> Iterator[Problem]:
        wanted = self.page.mark.signs if self.page.mark else ("",) * len(readings)
        if tuple(reading.sign for reading in readings) == wanted:
            return
        found = _say_signs([reading.sign for reading in readings])
        if self.page.mark:
            yield self.problem("print.mark", found=found, expected=_say_signs(wanted))
        else:
            yield self.problem("print.no-mark", found=found)

    def codes(self, sheets: Sequence[Any], found: Sequence[str]) -> Iterator[Problem]:
        if missing := [code for code in self.page.codes if code not in found]:
            closer = [seen(printed, FINE_PPI) for printed in sheets]
            fine = [code for one, grey in closer for code in scan(grey, one.size, thorough=True)]
            for code in missing:
                if code not in fine:
                    yield self.problem("print.code-missing", text=code)
        for code in found:
            if code not in (*self.page.codes, *self.page.may_scan):
                yield self.problem("print.code-stray", text=code)


def seen(printed: Any, ppi: float) -> tuple[Image.Image, bytes]:
    """Return the grey picture of a pypdfium2 page, and its bytes, row by row."""
    bitmap = printed.render(scale=ppi / POINTS_PER_INCH, grayscale=True)
    picture: Image.Image = bitmap.to_pil()
    return picture, bytes(bitmap.buffer)  # as `picture.tobytes()`, which takes six times as long


def scan(grey: bytes, size: tuple[int, int], *, thorough: bool = False) -> list[str]:
    """Return what the bar codes in a grey picture say: QR, Code 128 and Code 39."""
    import zxingcpp

    kinds, how = zxingcpp.BarcodeFormat, zxingcpp.Binarizer
    wanted: Any = [kinds.QRCode, kinds.Code128, kinds.Code39]
    found = zxingcpp.read_barcodes(
        memoryview(grey).cast("B", (size[1], size[0])),
        formats=wanted,
        try_rotate=thorough,
        try_downscale=thorough,
        try_invert=thorough,
        binarizer=how.LocalAverage if thorough else how.FixedThreshold,
    )
    return [code.text for code in found]


def margins(look: Look) -> tuple[Box, ...]:
    """Return the four edges of the paper that must stay clear."""
    page, edge = look.page, PRINT_MARGIN - SIZE_SLACK
    return (
        Box(0.0, 0.0, page.width, edge),
        Box(0.0, page.height - edge, page.width, edge),
        Box(0.0, 0.0, edge, page.height),
        Box(page.width - edge, 0.0, edge, page.height),
    )


def _has_ink(picture: Image.Image, box: Box, look: Look) -> bool:
    left, top, right, low = (round(side) for side in pixels(picture, box, look.page))
    darkest, _ = picture.crop((left, top, right, low)).getextrema()
    return bool(darkest < INK)  # type: ignore[operator]


def _sides(width: float, height: float) -> str:
    return f"{width:.1f} × {height:.1f} mm"


def _say_signs(signs: Sequence[str | None]) -> Arg:
    said = {None: say("print.unreadable-sign"), "": say("print.no-sign")}
    return tuple(said[sign] if sign in said else say(f"mark.{sign}") for sign in signs)


def fonts_not_embedded(document: Opened) -> list[str]:
    """Return the names of the fonts that set text on the pages and are not carried along."""
    import pypdfium2.raw as pdfium

    loose: dict[str, None] = {}
    for at in range(len(document)):
        for item in objects_on(document[at]):
            font = pdfium.FPDFTextObj_GetFont(item)
            if font and not pdfium.FPDFFont_GetIsEmbedded(font):
                loose[_name_of(font)] = None
    return list(loose)


def _name_of(font: Any) -> str:
    import pypdfium2.raw as pdfium

    length = pdfium.FPDFFont_GetBaseFontName(font, None, 0)
    name = create_string_buffer(length)
    pdfium.FPDFFont_GetBaseFontName(font, name, length)
    return name.value.decode("utf-8", "replace")
