"""Several print-outs as one PDF, and a page of one as a picture."""

from __future__ import annotations

from io import BytesIO

import pikepdf
import pytest
from PIL import Image
from pypdfium2 import PdfDocument

from boxwright.paper.bundles import merged, pictured
from boxwright.paper.frame import Look
from boxwright.paper.render import render
from tests.paper.conftest import make_page


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
