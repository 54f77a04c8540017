"""Where things stand on a page, in millimetres: the one place for papers, margins and marks.

`page.typ` is given these numbers as data, and the read-back looks where they say, so
that neither can drift from the other. Distances run from the top left corner of the page.
"""

from __future__ import annotations

from typing import Any, Literal, get_args

from boxwright.frozen import frozen_value
from boxwright.text import mm

PaperName = Literal["a4", "us-letter"]
Size = Literal[12, 14, 18]

# ISO 216 for A4; Letter is 8.5 by 11 inches.
PAPERS: dict[PaperName, tuple[float, float]] = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4)}
SIZES: tuple[Size, ...] = get_args(Size)
TEACHERS_SIZE: Size = 12

PRINT_MARGIN = 10.0  # what a common printer leaves blank, with room to spare
SIDE, TOP, FOOT = 18.0, 15.0, 23.5  # from the page's edge to what a kind may draw on
MARK, MARK_STEP, MARK_GAP, MARK_RISE = 6.0, 7.5, 5.0, 11.0
RULE_RISE = 19.5
STRIP_WIDTH = 5.0
RULER, RULER_TICK = 100.0, 3.0


@frozen_value
class Box:
    """A rectangle: its left and top edge, its width and height."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height

    def holds(self, other: Box, slack: float = 0.0) -> bool:
        """Tell whether `other` lies within this box, give or take `slack`."""
        return (
            other.x >= self.x - slack
            and other.y >= self.y - slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )


@frozen_value
class Look:
    """How pages look: paper, size of the running text in points, language (BCP 47)."""

    paper: PaperName = "a4"
    size: Size = 14
    lang: str = "en"

    def __post_init__(self) -> None:
        """Refuse what no page was designed for; users' wishes are checked before."""
        if self.paper not in PAPERS or self.size not in SIZES:
            raise ValueError(f"no such look: {self.paper}, {self.size} pt")

    @property
    def page(self) -> Box:
        """The whole page."""
        return Box(0.0, 0.0, *PAPERS[self.paper])

    @property
    def printable(self) -> Box:
        """The part of the page that every printer reaches."""
        width, height = PAPERS[self.paper]
        return Box(PRINT_MARGIN, PRINT_MARGIN, width - 2 * PRINT_MARGIN, height - 2 * PRINT_MARGIN)

    @property
    def body(self) -> Box:
        """The part for the title and for what a kind draws."""
        width, height = PAPERS[self.paper]
        return Box(SIDE, TOP, width - 2 * SIDE, height - TOP - FOOT)

    @property
    def strip(self) -> Box:
        """The edge strip that tells a teacher's page."""
        inner = self.printable
        return Box(inner.x, inner.y, STRIP_WIDTH, inner.height)

    @property
    def rule(self) -> Box:
        """The thin line over the foot."""
        return Box(SIDE, self.page.height - RULE_RISE, self.body.width, 0.0)

    @property
    def mark_places(self) -> tuple[Box, ...]:
        """Six places in the foot: three signs for the printing, then three for the sheet."""
        top = self.page.height - MARK_RISE - MARK
        lefts = [SIDE + MARK_STEP * place + MARK_GAP * (place >= 3) for place in range(6)]
        return tuple(Box(left, top, MARK, MARK) for left in lefts)

    @property
    def ruler(self) -> Box:
        """A line of 100 mm in the foot, at the right: shorter or longer, and it was scaled."""
        right = self.body.right - 1.0
        return Box(right - RULER, self.page.height - MARK_RISE - MARK / 2, RULER, RULER_TICK)

    @property
    def number(self) -> Box:
        """Where a page that takes several sheets counts them."""
        return Box(self.body.right - 20.0, self.page.height - MARK_RISE - MARK, 20.0, MARK)

    @property
    def marks(self) -> Box:
        """What holds all six signs and the stroke between them, with their lines' corners."""
        first, last = self.mark_places[0], self.mark_places[-1]
        return Box(first.x - 1, first.y - 1, last.right - first.x + 2, first.height + 2)

    def data(self) -> dict[str, Any]:
        """Return what `page.typ` needs of this, as JSON."""
        lang, _, region = self.lang.partition("-")
        return {
            "paper": self.paper,
            "size": self.size,
            "lang": lang.lower(),
            "region": region.lower() if len(region) == 2 and region.isalpha() else None,
            "page": _box(self.page),
            "body": _box(self.body),
            "strip": _box(self.strip),
            "rule": _box(self.rule),
            "ruler": _box(self.ruler),
            "number": _box(self.number),
            "marks": [_box(place) for place in self.mark_places],
        }


def size_for(ages: tuple[int, int]) -> Size:
    """Return the size of the running text, in points, for pupils of these ages."""
    return 14 if ages[0] <= 9 else 12


def _box(box: Box) -> dict[str, float]:
    return {"x": mm(box.x), "y": mm(box.y), "width": mm(box.width), "height": mm(box.height)}
