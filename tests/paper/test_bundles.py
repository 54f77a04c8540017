"""Several print-outs as one PDF, and a page of one as a picture."""

from __future__ import annotations

import ctypes
import re
from io import BytesIO

import pikepdf
import pytest
from PIL import Image
from pypdfium2 import PdfDocument, PdfPage, raw

from boxwright.paper.bundles import merged, pictured
from boxwright.paper.frame import Look
from boxwright.paper.render import render
from tests.paper.conftest import make_page


def tags(page: PdfPage) -> list[str]:
    """Return the tags of a page in the order of reading."""
    tree = raw.FPDF_StructTree_GetForPage(page.raw)
    roots = raw.FPDF_StructTree_CountChildren(tree)
    waiting = [raw.FPDF_StructTree_GetChildAtIndex(tree, at) for at in range(roots)]
    found = []
    while waiting:
        element = waiting.pop(0)
        if not element:  # dots of the page
            continue
        name = ctypes.create_string_buffer(80)
        raw.FPDF_StructElement_GetType(element, name, 80)
        found.append(name.raw.decode("utf-16-le").partition("\0")[0])
        below = range(raw.FPDF_StructElement_CountChildren(element))
        waiting[:0] = [raw.FPDF_StructElement_GetChildAtIndex(element, at) for at in below]
    return found


@pytest.fixture(scope="module")
def pdfs() -> list[bytes]:
    pages = [make_page(), make_page(lines=("Then it moved.",))]
    return [render(pages, Look("a4", 12)), render(pages[1:], Look("us-letter", 12))]


def test_all_pages_are_there_in_their_order_and_in_their_sizes(pdfs: list[bytes]) -> None:
    whole = PdfDocument(merged(pdfs, "Both", "en"))
    texts = [page.get_textpage().get_text_range() for page in whole]
    assert ["noon" in text for text in texts] == [True, False, False]
    assert [round(page.get_height()) for page in whole] == [842, 842, 792]


def test_it_is_printed_on_one_side_and_unscaled_under_its_title(pdfs: list[bytes]) -> None:
    with pikepdf.Pdf.open(BytesIO(merged(pdfs, "Both", "en"))) as whole:
        wishes = whole.Root.ViewerPreferences
        assert [str(wishes.Duplex), str(wishes.PrintScaling)] == ["/Simplex", "/None"]
        assert str(whole.docinfo["/Title"]) == "Both"
        assert str(whole.Root.Lang) == "en"


def test_each_page_keeps_its_tags(pdfs: list[bytes]) -> None:
    """As PDFium reads them, which finds the elements of a page by its number."""
    whole = PdfDocument(merged(pdfs, "Both", "en"))
    one_by_one = [tags(page) for pdf in pdfs for page in PdfDocument(pdf)]
    assert [tags(page) for page in whole] == one_by_one
    assert all("H1" in found and "Figure" in found for found in one_by_one)


def test_each_marked_part_of_a_page_is_of_an_element_on_that_page(pdfs: list[bytes]) -> None:
    with pikepdf.Pdf.open(BytesIO(merged(pdfs, "Both", "en"))) as whole:
        root = whole.Root.StructTreeRoot
        elements = pikepdf.NumberTree(root.ParentTree)
        numbers = [int(page.StructParents) for page in whole.pages]
        assert numbers == [0, 1, 2]
        assert root.ParentTreeNextKey == 3
        for number, page in zip(numbers, whole.pages, strict=True):
            marked = re.findall(rb"/MCID (\d+)", page.Contents.read_bytes())
            assert marked
            for mark in marked:
                assert elements[number][int(mark)].Pg.objgen == page.obj.objgen


def test_it_says_that_it_is_tagged_and_what_it_is_called(pdfs: list[bytes]) -> None:
    with pikepdf.Pdf.open(BytesIO(merged(pdfs, "Both", "en"))) as whole:
        assert bool(whole.Root.MarkInfo.Marked)
        assert whole.pdf_version == "1.7"
        with whole.open_metadata(set_pikepdf_as_editor=False) as metadata:
            assert (metadata["dc:title"], metadata["pdfuaid:part"]) == ("Both", "1")


def test_the_same_files_give_the_same_bytes(pdfs: list[bytes]) -> None:
    assert merged(pdfs, "Both", "en") == merged(pdfs, "Both", "en")


def test_a_picture_is_as_wide_as_was_asked_and_shows_the_page(pdfs: list[bytes]) -> None:
    first, second = (Image.open(BytesIO(pictured(pdfs[0], at, 320))) for at in (0, 1))
    assert abs(first.width - 320) <= 1
    assert first.height / first.width == pytest.approx(297 / 210, abs=0.01)
    assert first.tobytes() != second.tobytes()
    assert first.convert("L").getextrema() == (0, 255)


@pytest.mark.parametrize("page", [-1, 2])
def test_a_page_that_is_not_there_has_no_picture(pdfs: list[bytes], page: int) -> None:
    with pytest.raises(IndexError):
        pictured(pdfs[0], page, 320)
