"""The read-back passes what was printed well, and names whatever somebody tampered with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
import segno

from boxwright.choose.marks import Mark
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.opened import opened
from boxwright.paper.page import Page
from boxwright.paper.readback import fonts_not_embedded, read_back
from boxwright.paper.render import render
from boxwright.problems import Problem

A4 = Look()
Maker = Callable[..., Page]


def codes(problems: list[Problem]) -> list[str]:
    return [problem.code for problem in problems]


def painted(pdf: bytes, drawing: str, on: int = 0) -> bytes:
    """Return `pdf` with PDF drawing operators (in points) put over page `on`."""
    with pikepdf.open(BytesIO(pdf)) as document:
        document.pages[on].contents_add(f"q {drawing} Q".encode())
        out = BytesIO()
        document.save(out)
    return out.getvalue()


def patch(x: float, y: float, width: float, height: float, grey: float = 1) -> str:
    """Return operators for a patch, from the page's lower left corner, in mm."""
    k = 72 / 25.4
    return f"{grey} g {x * k:.2f} {y * k:.2f} {width * k:.2f} {height * k:.2f} re f"


def with_picture(page: Maker, content: str, kind: str = "qr") -> Page:
    out = BytesIO()
    segno.make(content, micro=kind == "micro").save(out, kind="png", scale=8)
    sheet = {"numbers": [7], "picture": "/pictures/code.png"}
    return page(sheet=sheet, prints=(), files={"/pictures/code.png": out.getvalue()})


def test_pages_printed_well_have_nothing_to_tell(page: Maker, look: Look) -> None:
    teacher = page(reader="teacher", words={"teacher": "For the teacher"})
    pages = [page(), teacher, page(mark=None)]
    assert read_back(render(pages, look), pages, look) == []


def test_accents_ligatures_and_other_scripts_are_read_as_written(page: Maker) -> None:
    lines = ("Łódź, ½ flask, office; well-known", "Ελλάδα Київ", "हिन्दी", "A 😀 and ① → ok")
    pages = [page(lines=lines)]
    assert read_back(render(pages, A4), pages, A4) == []


def test_a_text_broken_over_lines_is_still_that_text(page: Maker, look: Look) -> None:
    pages = [page(lines=("The vane on the long-forgotten roof turned. " * 9,), title="Long " * 20)]
    assert read_back(render(pages, look), pages, look) == []


def test_a_changed_text_is_missed(page: Maker) -> None:
    pdf = render([page(lines=("At noon it stood still.",))], A4)
    (problem,) = read_back(pdf, [page(lines=("At night it stood still.",))], A4)
    assert problem.code == "print.text"
    assert problem.what.args["text"] == "At night it stood still."


def test_a_text_printed_once_instead_of_twice_is_missed(page: Maker) -> None:
    pdf = render([page(lines=("Again.",))], A4)
    assert codes(read_back(pdf, [page(lines=("Again.", "Again."))], A4)) == ["print.text"]


def test_a_dropped_page_is_missed(page: Maker) -> None:
    (problem,) = read_back(render([page()], A4), [page(), page()], A4)
    assert problem.code == "print.pages"
    assert words(problem.what) == "2 pages were expected, and 1 came out."


def test_pages_in_the_wrong_order_are_told(page: Maker) -> None:
    one = page(title="One", mark=Mark(("cup", "cup", "cup"), ("bell", "bell", "bell")))
    pdf = render([one, page()], A4)
    assert "print.mark" in codes(read_back(pdf, [page(), one], A4))


def test_another_paper_is_told(page: Maker) -> None:
    pdf = render([page()], Look("us-letter", 14))
    found = [p for p in read_back(pdf, [page()], A4) if p.code == "print.size"]
    assert found[0].what.args["found"] == "215.9 × 279.4 mm"


@pytest.mark.parametrize("place", range(6))
def test_one_sign_changed_is_told(page: Maker, place: int) -> None:
    signs = ["kite", "bell", "oar", "moon", "gate", "leaf"]
    signs[place] = "tent"
    other = page(mark=Mark((signs[0], signs[1], signs[2]), (signs[3], signs[4], signs[5])))
    (problem,) = read_back(render([other], A4), [page()], A4)
    assert problem.code == "print.mark"
    assert "tent" in words(problem.what)


def test_a_sign_painted_over_is_told(page: Maker) -> None:
    place = A4.mark_places[2]
    cover = patch(place.x, 297 - place.bottom, 6, 6)
    assert "print.mark" in codes(read_back(painted(render([page()], A4), cover), [page()], A4))


def test_a_mark_where_none_should_be_is_told(page: Maker) -> None:
    assert codes(read_back(render([page()], A4), [page(mark=None)], A4)) == ["print.no-mark"]


@pytest.mark.parametrize("grey", [0, 0.5, 1])
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("size", [12, 14, 18])
def test_covered_text_is_told_although_the_file_still_holds_it(
    page: Maker, grey: float, paper: str, size: int
) -> None:
    look = Look(paper, size)  # type: ignore[arg-type]
    pages = [page(lines=("Mmmmmmmm wwwwwww nnnnn aaaaaa",), numbers=(1,))]
    pdf = render(pages, look)
    assert read_back(pdf, pages, look) == []
    x, y, width, height = box_of(pdf, "wwww")
    bad = read_back(painted(pdf, patch(x, y - 0.5, width, height + 1, grey)), pages, look)
    assert codes(bad) == ["print.covered"]
    assert "ww" in str(bad[0].what.args["text"])


def test_covered_text_on_the_edge_strip_is_told(page: Maker) -> None:
    pages = [page(reader="teacher", words={"teacher": "For the teacher"})]
    pdf = render(pages, A4)
    assert "print.covered" in codes(read_back(painted(pdf, patch(10, 130, 5, 40, 0.3)), pages, A4))


def box_of(pdf: bytes, text: str) -> tuple[float, float, float, float]:
    """Return where `text` stands on the first page: left, bottom, width, height in mm."""
    import pypdfium2

    text_page = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    start = text_page.get_text_range().index(text)
    boxes = [text_page.get_charbox(start + at) for at in range(len(text))]
    left, low = min(b[0] for b in boxes), min(b[1] for b in boxes)
    right, high = max(b[2] for b in boxes), max(b[3] for b in boxes)
    k = 25.4 / 72
    return left * k, low * k, (right - left) * k, (high - low) * k


@pytest.mark.parametrize(("x", "y"), [(3, 150), (203, 150), (100, 2), (100, 290)])
def test_ink_that_a_printer_would_cut_off_is_told(page: Maker, x: float, y: float) -> None:
    pdf = painted(render([page()], A4), patch(x, y, 4, 4, 0))
    assert codes(read_back(pdf, [page()], A4)) == ["print.margin"]


def test_a_blank_page_is_told(page: Maker) -> None:
    pdf = painted(render([page()], A4), patch(0, 0, 210, 297))
    assert "print.blank" in codes(read_back(pdf, [page()], A4))


def test_a_number_that_is_nobodys_is_told_on_a_pupils_page(page: Maker) -> None:
    pdf = render([page(numbers=(3, 14))], A4)
    pupils = read_back(pdf, [page(numbers=(3, 15))], A4)
    assert [(p.code, p.what.args["number"]) for p in pupils] == [("print.figure", "14")]


def test_numbers_in_cells_that_touch_are_known_all_the_same(page: Maker) -> None:
    pages = [page(sheet={"numbers": [1, 23, 4], "side": 6}, prints=())]
    assert read_back(render(pages, A4), pages, A4) == []


def test_a_bar_code_is_scanned_as_a_phone_would(page: Maker) -> None:
    pages = [replace(with_picture(page, "WINDOW SILL"), codes=("WINDOW SILL",))]
    assert read_back(render(pages, A4), pages, A4) == []


def test_a_bar_code_with_something_else_in_it_is_told_twice(page: Maker) -> None:
    pdf = render([with_picture(page, "BOARD")], A4)
    wanted = [replace(with_picture(page, "BOARD"), codes=("CHAIR",))]
    assert codes(read_back(pdf, wanted, A4)) == ["print.code-missing", "print.code-stray"]


def test_a_bar_code_that_nobody_ordered_is_told(page: Maker) -> None:
    made = with_picture(page, "BOARD")
    assert codes(read_back(render([made], A4), [made], A4)) == ["print.code-stray"]


def test_a_bar_code_half_covered_is_told(page: Maker) -> None:
    pages = [replace(with_picture(page, "WINDOW SILL"), codes=("WINDOW SILL",))]
    pdf = painted(render(pages, A4), patch(80, 180, 50, 58))
    assert "print.code-missing" in codes(read_back(pdf, pages, A4))


def loose(pdf: bytes) -> list[str]:
    with opened(pdf) as document:
        return fonts_not_embedded(document)


def test_a_font_left_out_of_the_file_is_told(page: Maker) -> None:
    pdf = render([page()], A4)
    assert loose(pdf) == []
    with pikepdf.open(BytesIO(pdf)) as document:
        for font in document.pages[0]["/Resources"]["/Font"].values():
            descriptor = font["/DescendantFonts"][0]["/FontDescriptor"]
            for key in ("/FontFile", "/FontFile2", "/FontFile3"):
                if key in descriptor:
                    del descriptor[key]
        out = BytesIO()
        document.save(out)
    assert any("Atkinson" in name for name in loose(out.getvalue()))
    assert "print.font" in codes(read_back(out.getvalue(), [page()], A4))


def test_what_is_no_pdf_is_told_and_does_not_crash(page: Maker) -> None:
    assert codes(read_back(b"not a PDF", [page()], A4)) == ["print.damaged"]


def test_every_complaint_has_words_and_a_remedy(page: Maker) -> None:
    bad = painted(render([page(numbers=(1,))], A4), patch(0, 0, 210, 297, 0.4))
    problems = read_back(bad, [page(numbers=(2,), lines=("Lost.",))], A4)
    assert len({problem.code for problem in problems}) >= 4
    for problem in problems:
        assert not words(problem.what).startswith("print.")
        assert not words(problem.remedy).startswith("print.")
