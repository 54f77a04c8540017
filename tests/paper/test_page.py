"""A kind's sheet becomes a page: its words said, its picture described, its reader known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from types import ModuleType
from typing import Any, cast

import pypdfium2
import pytest
from PIL import Image

from boxwright.choose.marks import Mark
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.page import Page, gated, page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.problems import Message, Where, say
from boxwright.puzzles.contract import Carries, Facts, Kind, Part

KINDS = Path(__file__).with_name("kinds")
Maker = Callable[..., Page]


@dataclass(frozen=True, slots=True)
class Row:
    numbers: tuple[int, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    sheet: Row | None = None
    film_2: Row | None = None


SHEET = Sheet(Row((3, 14), ("A line.",)), Row((7,), ()))


@pytest.fixture(name="kind")
def kind_of_rows() -> Kind:
    """Give a kind with two parts, the second for the teacher."""
    module: Any = ModuleType("rows")
    module.__file__ = str(KINDS / "rows.py")
    module.FACTS = Facts(
        answers=(Carries("digits", None, 1, 4),),
        ages=(8, 12),
        band_minutes=(1, 2),
        skill=frozenset({"counting"}),
        parts=(Part("sheet"), Part("film-2", "teacher", apart=True)),
    )
    module.describe = lambda sheet, part: say("mark.bell")
    module.words = lambda sheet, part: {"task": say("mark.kite")}
    module.prints = lambda sheet, part: sheet.sheet.lines if part == "sheet" else ()
    return cast(Kind, module)


def test_a_part_becomes_a_page_in_the_words_of_a_language(kind: Kind) -> None:
    page = page_for(kind, SHEET, "sheet", title="Rows", lang="en", group=True)
    assert page.template == KINDS / "rows.typ"
    assert page.sheet == {"numbers": [3, 14], "lines": ["A line."]}
    assert page.words == {"task": "kite", "group": "Group"}
    assert (page.alt, page.reader, page.prints) == ("bell", "pupils", ("A line.",))


def test_a_teachers_part_gets_the_words_of_its_strip(kind: Kind) -> None:
    page = page_for(kind, SHEET, "film-2", title="Rows", lang="en")
    assert page.reader == "teacher"
    assert page.sheet == {"numbers": [7], "lines": []}
    assert page.words["teacher"] == "For the teacher"


def test_such_pages_print_and_read_back(kind: Kind, look: Look) -> None:
    mark = Mark(("cup", "fish", "tent"), ("shell", "boat", "comb"))
    pages = [
        page_for(kind, SHEET, p, title="Rows", lang="en", mark=mark) for p in ("sheet", "film-2")
    ]
    assert read_back(render(pages, look), pages, look) == []


def test_what_is_replaced_is_told_once_and_expected_replaced(page: Maker) -> None:
    made = page(lines=("Go → on",), where=Where("game.toml", ("clues", "wind"), 12))
    clean, (problem,) = gated(made)
    assert clean.sheet["lines"] == ["Go -> on"]
    assert clean.prints == ("Go -> on",)
    assert problem.where == Where("game.toml", ("clues", "wind", "sheet", "lines", 0), 12)
    assert read_back(render([made], Look()), [made], Look()) == []


def test_a_clean_page_stays_as_it_is(page: Maker) -> None:
    assert gated(page()) == (page(), ())


def test_signs_to_draw_with_point_where_they_should(tmp_path: Path) -> None:
    template = tmp_path / "arrows.typ"
    template.write_text(
        '#import "/paper/draw.typ": arrow, blank-line, dot, tick, tick-box\n'
        "#let draw(part, sheet, words, look) = {\n"
        "  place(dx: 0mm, arrow(20mm, turn: sheet.turn * 1deg))\n"
        "  place(dx: 40mm, tick(20mm)); place(dx: 80mm, tick-box(20mm))\n"
        "  place(dx: 120mm, dot(20mm))\n"
        "  place(dy: 40mm, blank-line(30mm))\n"
        "}"
    )
    heads = {turn: heavy_side(template, turn) for turn in (0, 90, 180, 270)}
    assert heads == {0: "up", 90: "right", 180: "down", 270: "left"}


def heavy_side(template: Path, turn: int) -> str:
    """Return to which side of its middle the arrow's ink leans: there is its head."""
    page = Page(template, "sheet", {"turn": turn}, {}, title="", alt="An arrow.")
    (png,) = render([page], Look(), "png", ppi=101.6)
    field = Image.open(BytesIO(png)).convert("L").crop((72, 60, 160, 180))
    left, top, right, low = field.point(lambda grey: 255 * (grey < 128)).getbbox() or (0, 0, 0, 0)
    ink = [
        (x - (left + right - 1) / 2, y - (top + low - 1) / 2)
        for x in range(left, right)
        for y in range(top, low)
        if field.getpixel((x, y)) == 0
    ]
    across, down = sum(x for x, _ in ink), sum(y for _, y in ink)
    if abs(across) > abs(down):
        return "right" if across > 0 else "left"
    return "down" if down > 0 else "up"


@pytest.mark.parametrize("lang", ["en", "en-GB", "de-AT", "zh-Hant", "pl"])
def test_any_language_tag_can_be_set(page: Maker, lang: str) -> None:
    pdf = render([page()], Look("a4", 14, lang))
    assert len(pypdfium2.PdfDocument(pdf)) == 1


@pytest.mark.parametrize(("paper", "size"), [("a5", 14), ("a4", 13)])
def test_no_other_look_is_made_than_those_designed(paper: Any, size: Any) -> None:
    with pytest.raises(ValueError, match="no such look"):
        Look(paper, size)


def test_the_words_of_a_page_say_something() -> None:
    for id in ("paper.group", "paper.teacher", "paper.a4", "paper.us-letter"):
        assert words(Message(id)) != id
