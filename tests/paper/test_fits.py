"""What does not fit any paper or size is refused with millimetres; never clipped."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import pypdfium2
import pytest

from boxwright.messages import words
from boxwright.paper.fits import object_boxes
from boxwright.paper.frame import Look
from boxwright.paper.page import Page
from boxwright.paper.render import render
from boxwright.problems import Problem, Refused, Where

Maker = Callable[..., Page]


def refused(pages: list[Page], look: Look) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        render(pages, look)
    return caught.value.problems


def test_a_page_with_room_to_spare_is_not_refused(page: Maker, look: Look) -> None:
    assert render([page()], look)


def test_a_row_too_wide_is_refused_with_what_it_needs(page: Maker, look: Look) -> None:
    (problem,) = refused(
        [page(numbers=tuple(range(20)), where=Where("game.toml", ("clues",), 7))], look
    )
    assert problem.code == "paper.too-wide"
    assert problem.where.line == 7
    assert problem.what.args["found"] == pytest.approx(20 * 14, abs=1)
    assert problem.what.args["has"] == int(look.body.width)


def test_one_column_less_than_too_wide_fits(page: Maker, look: Look) -> None:
    fitting = int(look.body.width // 14)
    assert render([page(numbers=(1,) * fitting)], look)
    assert refused([page(numbers=(1,) * (fitting + 1))], look)[0].code == "paper.too-wide"


def test_text_too_tall_is_refused_and_stays_on_one_page(page: Maker, look: Look) -> None:
    (problem,) = refused([page(lines=("A line.",) * 90)], look)
    assert problem.code == "paper.too-tall"
    assert int(str(problem.what.args["found"])) > look.body.height


def test_a_word_longer_than_a_line_is_too_wide(page: Maker, look: Look) -> None:
    assert [problem.code for problem in refused([page(lines=("W" * 70,))], look)] == [
        "paper.too-wide"
    ]


TWO_LINES = "The needle’s diary, and what became of the vane that turned in the rain"


@pytest.mark.parametrize(("title", "told"), [("The needle’s diary", False), (TWO_LINES, True)])
@pytest.mark.parametrize(("lines", "numbers"), [(("A line.",) * 90, (1,)), ((), (1,) * 30)])
def test_the_remedy_names_a_title_that_takes_two_lines(
    page: Maker, title: str, told: bool, lines: tuple[str, ...], numbers: tuple[int, ...]
) -> None:
    (problem,) = refused([page(title=title, lines=lines, numbers=numbers)], Look("a4", 12))
    assert ("a shorter title" in words(problem.remedy)) is told


def test_the_remedy_works_where_the_size_was_the_trouble(page: Maker) -> None:
    long = page(lines=("Rain fell on the hill, and the vane turned.",) * 24)
    assert refused([long], Look("a4", 18))
    assert render([long], Look("a4", 12))


def test_every_page_that_does_not_fit_is_named_at_once(page: Maker) -> None:
    wide, tall = page(title="Wide", numbers=(1,) * 30), page(title="Tall", lines=("A line.",) * 90)
    problems = refused([wide, page(), tall], Look())
    assert [(p.code, p.what.args["title"]) for p in problems] == [
        ("paper.too-wide", "Wide"),
        ("paper.too-tall", "Tall"),
    ]


@pytest.mark.parametrize("form", ["png", "svg"])
def test_a_preview_refuses_what_the_print_refuses(page: Maker, form: Literal["png", "svg"]) -> None:
    with pytest.raises(Refused):
        render([page(numbers=(1,) * 30)], Look(), form)


@pytest.mark.parametrize(
    ("x", "y"), [(-30, 0), (500, 0), (0, -60), (0, 400), (0, 243), (90, 250), (-14, 50)]
)
def test_what_is_placed_out_of_its_room_is_found(page: Maker, x: int, y: int) -> None:
    made = page(template="placed", sheet={"x": x, "y": y, "side": 10}, prints=())
    assert refused([made], Look())


def test_the_complaint_names_size_paper_and_both_lengths(page: Maker) -> None:
    (problem,) = refused([page(numbers=(1,) * 20)], Look("us-letter", 18))
    said = words(problem.what)
    assert all(piece in said for piece in ("18 pt", "US Letter", "281 mm", "179 mm", "needle"))
    assert "12 pt" in words(problem.remedy)


@pytest.mark.parametrize("thickness", [0, 1, 4])
def test_the_box_of_a_stroked_square_is_what_is_seen(page: Maker, thickness: int) -> None:
    sheet = {"x": 40, "y": 40, "side": 30, "stroke": thickness}
    pdf = render([page(template="placed", sheet=sheet, prints=())], Look())
    wide = [box.width for box in object_boxes(pypdfium2.PdfDocument(pdf)[0])]
    assert any(width == pytest.approx(30 + thickness, abs=0.05) for width in wide)


def test_a_frame_as_wide_as_its_room_fits(page: Maker, look: Look) -> None:
    sheet = {"x": 0.5, "y": 0.5, "side": look.body.width - 1, "stroke": 1}
    assert render([page(template="placed", sheet=sheet, prints=())], look)
