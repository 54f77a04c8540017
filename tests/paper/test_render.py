"""Pages become one file, the same on every call, with the user's text as text alone."""

from __future__ import annotations

import subprocess
import sys
import threading
from collections.abc import Callable
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.readback import read_back
from boxwright.paper.render import MisprintError, render
from boxwright.problems import Problem

A4 = Look()
Maker = Callable[..., Page]


def text_of(pdf: bytes) -> str:
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_range() for page in document)


def test_the_same_pages_give_the_same_bytes(page: Maker) -> None:
    assert render([page(), page()], A4) == render([page(), page()], A4)


def test_another_process_gives_the_same_bytes(page: Maker) -> None:
    script = (
        "import sys; sys.path.insert(0, sys.argv[1]); from conftest import make_page;"
        "from boxwright.paper.render import render; from boxwright.paper.frame import Look;"
        "from hashlib import sha256; print(sha256(render([make_page()], Look())).hexdigest())"
    )
    here = str(Path(__file__).parent)
    said = subprocess.run(
        [sys.executable, "-c", script, here], check=True, capture_output=True, text=True
    )
    assert said.stdout.strip() == sha256(render([page()], A4)).hexdigest()


def test_pages_printed_before_do_not_show_in_later_ones(page: Maker) -> None:
    alone = render([page(title="Second")], A4)
    render([page(title="First", lines=("Something else.",))], A4)
    assert render([page(title="Second")], A4) == alone


def test_two_threads_do_not_mix_their_pages(page: Maker) -> None:
    made: dict[str, bytes] = {}
    wrong: list[Problem] = []

    def print_one(title: str) -> None:
        for _ in range(5):
            pages = [page(title=title)]
            made[title] = render(pages, A4)
            wrong.extend(read_back(made[title], pages, A4))

    threads = [threading.Thread(target=print_one, args=(title,)) for title in ("Tide", "Wind")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert "Tide" in text_of(made["Tide"])
    assert "Wind" in text_of(made["Wind"])
    assert wrong == []


def test_each_page_is_one_page_of_the_paper_asked_for(page: Maker, look: Look) -> None:
    document = pypdfium2.PdfDocument(render([page(), page(), page()], look))
    assert len(document) == 3
    points = {"a4": (595.276, 841.890), "us-letter": (612, 792)}[look.paper]  # ISO 216; 8.5 x 11 in
    assert document[0].get_size() == pytest.approx(points, abs=0.01)


def test_pictures_come_one_for_each_page(page: Maker) -> None:
    png = render([page(), page()], A4, "png", ppi=50)
    svg = render([page(), page()], A4, "svg")
    assert [Image.open(BytesIO(one)).size for one in png] == [(413, 585)] * 2
    assert all(one.lstrip().startswith(b"<svg") for one in svg)


def test_a_teachers_page_has_its_strip_and_a_pupils_page_has_none(page: Maker) -> None:
    words = {"teacher": "For the teacher"}
    pages = [page(), page(reader="teacher", words=words)]
    pupils, teachers = (Image.open(BytesIO(one)) for one in render(pages, A4, "png", ppi=25.4))
    strip = A4.strip
    middle = (round(strip.x + strip.width / 2), 60)
    assert pupils.convert("L").getpixel(middle) == 255
    assert teachers.convert("L").getpixel(middle) in range(100)


def test_the_printer_is_told_one_side_and_no_scaling(page: Maker) -> None:
    with pikepdf.open(BytesIO(render([page()], A4))) as document:
        wishes = document.Root["/ViewerPreferences"]
        assert wishes["/Duplex"] == "/Simplex"
        assert wishes["/PrintScaling"] == "/None"


def test_print_settings_leave_no_date_behind(page: Maker) -> None:
    with pikepdf.open(BytesIO(render([page()], A4))) as document:
        assert not {"/CreationDate", "/ModDate"} & set(document.docinfo.keys())
        assert b"CreateDate" not in document.Root["/Metadata"].read_bytes()


MARKUP = [
    "*bold* _it_ `raw` $x$",
    "#panic()",
    '#import "x"',
    "= Title",
    "- a\n+ b",
    "<label> @ref",
    r"\u{41} \\ //",
]


@pytest.mark.parametrize("text", MARKUP)
def test_what_looks_like_markup_is_printed_as_it_stands(page: Maker, text: str) -> None:
    printed = text_of(render([page(lines=(text,), words={"task": text})], A4))
    flat = "".join(printed.split())
    assert flat.count("".join(text.split()).replace("-", "")) >= 2 or "-" in text


@settings(max_examples=25)
@given(st.lists(st.text(max_size=12), min_size=1, max_size=6))
def test_no_text_whatever_breaks_the_printing(texts: list[str]) -> None:
    words = {str(at): text for at, text in enumerate(texts)}
    template = Path(__file__).with_name("kinds") / "words.typ"
    page = Page(template, "sheet", {}, words, title=texts[0] or "x", alt="x")
    assert render([page], A4).startswith(b"%PDF-1.7")


def test_a_warning_of_typsts_fails_the_build(page: Maker) -> None:
    with pytest.raises(MisprintError, match="no such face"):
        render([page(template="warns")], A4)


def test_a_fault_in_a_template_is_told_with_its_place(page: Maker) -> None:
    with pytest.raises(MisprintError, match=r"fails\.typ"):
        render([page(template="fails")], A4)


def test_two_templates_of_one_name_are_refused(page: Maker, tmp_path: Path) -> None:
    other = tmp_path / "rows.typ"
    other.write_text("#let draw(part, sheet, words, look) = []")
    with pytest.raises(MisprintError, match="rows"):
        render([page(), Page(other, "sheet", {}, {}, title="x", alt="x")], A4)


def test_a_picture_of_the_users_is_printed(page: Maker) -> None:
    picture = BytesIO()
    Image.new("L", (40, 40), 0).save(picture, "PNG")
    sheet = {"numbers": [1], "picture": "/pictures/black.png"}
    made = page(sheet=sheet, prints=(), files={"/pictures/black.png": picture.getvalue()})
    before = Image.open(BytesIO(render([page(sheet={"numbers": [1]}, prints=())], A4, "png")[0]))
    after = Image.open(BytesIO(render([made], A4, "png")[0]))
    dark = [sum(one.convert("L").histogram()[:64]) for one in (before, after)]
    assert dark[1] - dark[0] > 20_000


@pytest.mark.parametrize(
    "name", ["page.typ", "/../x.png", "pictures/../../x.png", "pictures/x.typ"]
)
def test_a_picture_can_replace_no_template_and_leave_no_folder(page: Maker, name: str) -> None:
    with pytest.raises(MisprintError, match="picture"):
        render([page(files={name: b"#panic()"})], A4)


def test_no_pages_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="no pages"):
        render([], A4)
