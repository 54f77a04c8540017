"""PDF/UA-1, ISO 14289-1:2014; rules as listed in veraPDF's PDFUA-1 profile (rules wiki).

Only what a machine can see is held here. A clean result is no proof of conformance:
whether a text describes its picture, and whether the order of reading makes sense,
nobody but a reader can tell; and veraPDF itself has not been run on these files.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from boxwright.choose.marks import Mark
from boxwright.paper.frame import Look
from boxwright.paper.opened import opened
from boxwright.paper.page import Page
from boxwright.paper.readback import fonts_not_embedded
from boxwright.paper.render import render

ALT = "Two squares in a row, each with a number."
TEMPLATE = Path(__file__).parent.parent / "paper" / "kinds" / "rows.typ"


def page(reader: Any, title: str) -> Page:
    words = {"task": "Read the numbers.", "group": "Group", "teacher": "For the teacher"}
    mark = Mark(("kite", "bell", "oar"), ("moon", "gate", "leaf"))
    sheet = {"numbers": [4, 2], "lines": ["At noon."]}
    return Page(TEMPLATE, "sheet", sheet, words, title=title, alt=ALT, mark=mark, reader=reader)


@pytest.fixture(scope="module")
def printed() -> bytes:
    pages = [page("pupils", "The needle’s diary"), page("teacher", "The answer")]
    return render(pages, Look("a4", 14, "en-GB"), title="Print-outs")


@pytest.fixture
def document(printed: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(BytesIO(printed)) as opened:
        yield opened


def elements(document: pikepdf.Pdf) -> Iterator[Any]:
    """Yield every structure element, in the order of reading."""
    waiting: list[Any] = [document.Root["/StructTreeRoot"]["/K"]]
    while waiting:
        item = waiting.pop()
        if isinstance(item, pikepdf.Array):
            waiting.extend(reversed(list(item)))
        elif isinstance(item, pikepdf.Dictionary) and "/S" in item:
            yield item
            if "/K" in item:
                waiting.append(item["/K"])


def tags(document: pikepdf.Pdf) -> list[str]:
    return [str(element["/S"]) for element in elements(document)]


def test_the_metadata_says_part_one(document: pikepdf.Pdf) -> None:
    with document.open_metadata(set_pikepdf_as_editor=False) as metadata:
        assert metadata["pdfuaid:part"] == "1"


def test_the_header_is_of_version_one(printed: bytes) -> None:
    assert re.match(rb"%PDF-1\.[0-7]\n", printed)


def test_the_file_says_that_it_is_tagged(document: pikepdf.Pdf) -> None:
    assert bool(document.Root["/MarkInfo"]["/Marked"])
    assert not document.Root["/MarkInfo"].get("/Suspects", False)


def test_there_is_a_tree_of_structure_and_a_way_into_it(document: pikepdf.Pdf) -> None:
    root = document.Root["/StructTreeRoot"]
    assert root["/Type"] == "/StructTreeRoot"
    assert "/ParentTree" in root


def test_the_language_is_told(document: pikepdf.Pdf) -> None:
    assert str(document.Root["/Lang"]).lower() in ("en", "en-gb")


def test_the_title_is_told_and_shown(document: pikepdf.Pdf) -> None:
    with document.open_metadata(set_pikepdf_as_editor=False) as metadata:
        assert metadata["dc:title"] == "Print-outs"
    assert bool(document.Root["/ViewerPreferences"]["/DisplayDocTitle"])


def test_every_figure_has_its_text(document: pikepdf.Pdf) -> None:
    figures = [element for element in elements(document) if element["/S"] == "/Figure"]
    assert [str(figure["/Alt"]) for figure in figures] == [ALT, ALT]


def test_each_page_opens_with_a_heading(document: pikepdf.Pdf) -> None:
    assert tags(document).count("/H1") == 2


def test_running_text_is_outside_the_figure(document: pikepdf.Pdf) -> None:
    assert tags(document).count("/P") >= 4


def test_fonts_are_in_the_file_and_map_to_unicode(printed: bytes, document: pikepdf.Pdf) -> None:
    with opened(printed) as pages:
        assert fonts_not_embedded(pages) == []
    for printed_page in document.pages:
        for font in printed_page["/Resources"]["/Font"].values():
            assert "/ToUnicode" in font


def test_tabbing_follows_the_structure(document: pikepdf.Pdf) -> None:
    assert [str(printed_page["/Tabs"]) for printed_page in document.pages] == ["/S", "/S"]


def test_the_signs_in_the_foot_are_no_part_of_the_reading(document: pikepdf.Pdf) -> None:
    drawn = 0
    for printed_page in document.pages:
        inside: list[str] = []
        for step in pikepdf.parse_content_stream(printed_page):
            operator = str(step.operator)
            if operator in ("BDC", "BMC"):
                inside.append(str(step.operands[0]))
            elif operator == "EMC":
                inside.pop()
            elif operator in ("f", "f*", "S", "B", "Tj", "TJ"):
                drawn += 1
                assert inside, "everything drawn is tagged or an artifact"
    assert drawn > 20


def test_nothing_is_locked_away_from_readers(document: pikepdf.Pdf) -> None:
    assert not document.is_encrypted
