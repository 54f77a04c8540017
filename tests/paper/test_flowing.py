"""Pages that take as many sheets of paper as they need, and what else only some pages have."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

from boxwright.choose.marks import NO_SHEET, Mark
from boxwright.paper.fits import object_boxes
from boxwright.paper.frame import RULER, Look
from boxwright.paper.opened import Opened
from boxwright.paper.page import Page
from boxwright.paper.readback import read_back
from boxwright.paper.render import MisprintError, render
from boxwright.paper.spans import spans
from boxwright.problems import Refused

Maker = Callable[..., Page]
KINDS = Path(__file__).with_name("kinds")
LINES = tuple(f"Line {number} of a long list." for number in range(90))


def flowing(page: Maker, **more: object) -> Page:
    made = page(template="lines", sheet={"lines": LINES}, words={}, prints=LINES, **more)
    return replace(made, flows=True)


def codes(pdf: bytes, pages: list[Page]) -> set[str]:
    return {problem.code for problem in read_back(pdf, pages, Look())}


def test_a_list_flows_onto_more_sheets_and_all_of_it_is_read(page: Maker, look: Look) -> None:
    made = flowing(page)
    pdf = render([made], look)
    assert len(pypdfium2.PdfDocument(pdf)) > 1
    assert read_back(pdf, [made], look) == []


def test_each_page_knows_its_sheets(page: Maker) -> None:
    pages = [page(), flowing(page, title="First"), page(), flowing(page, title="Second"), page()]
    document = Opened(pypdfium2.PdfDocument(render(pages, Look())))
    found = spans(document, pages)
    assert found is not None
    assert [len(one) for one in found] == [1, 3, 1, 3, 1]
    assert found[-1].stop == len(document)


def test_a_sheet_that_is_lost_is_told(page: Maker) -> None:
    made = flowing(page, title="First")
    alone = render([made], Look())
    assert "print.text" in codes(alone, [replace(made, prints=(*LINES, "Not there."))])
    assert codes(alone, [made, page()]) == {"print.pages"}


def test_a_line_too_wide_is_refused_on_whatever_sheet_it_stands(page: Maker) -> None:
    made = flowing(page)
    wide = replace(made, sheet={"lines": LINES, "wide": 400})
    with pytest.raises(Refused) as refused:
        render([wide], Look())
    assert [problem.code for problem in refused.value.problems] == ["paper.too-wide"]


def test_only_the_teachers_sheets_are_counted(page: Maker) -> None:
    for made, counted in ((flowing(page, reader="teacher"), True), (flowing(page), False)):
        text = pypdfium2.PdfDocument(render([made], Look()))[1].get_textpage().get_text_range()
        assert ("2 / 3" in text) is counted


def test_a_page_of_no_sheet_has_the_printings_signs_alone(page: Maker, look: Look) -> None:
    made = replace(page(), mark=Mark(("kite", "bell", "oar"), NO_SHEET))
    assert read_back(render([made], look), [made], look) == []


def test_the_ruler_is_as_long_as_it_says(page: Maker, look: Look) -> None:
    made = replace(page(), ruler=True)
    pdf = render([made], look)
    assert read_back(pdf, [made], look) == []
    foot = [b for b in object_boxes(pypdfium2.PdfDocument(pdf)[0]) if b.y > look.body.bottom]
    assert any(box.width == pytest.approx(RULER, abs=0.3) for box in foot)


def test_a_template_can_call_another_and_only_if_the_page_names_it(page: Maker) -> None:
    inner = page()
    sheet = {"call": "rows", "sheet": inner.sheet, "words": dict(inner.words)}
    outer = page(template="calls", sheet=sheet, words={}, prints=("14", "15"))
    pdf = render([replace(outer, uses=(inner.template,))], Look())
    assert codes(pdf, [replace(outer, uses=(inner.template,))]) == set()
    with pytest.raises(MisprintError):
        render([outer], Look())
