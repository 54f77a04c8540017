"""The teacher's own page: printed as it was written, and believed, not proven."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from PIL import Image

from boxwright.build import Asked, build
from boxwright.build.printing import printed
from boxwright.dice import Dice
from boxwright.game.arrange import Wishes
from boxwright.messages import words as said
from boxwright.paper.fits import object_boxes
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import page_for
from boxwright.paper.readback import read_back
from boxwright.paper.render import render
from boxwright.problems import Refused
from boxwright.puzzles import own_sheet, shelf
from boxwright.puzzles.contract import Answer, Given
from tests.games import EXAMPLES, demo

CODE = Answer("digits", ("4", "2", "7"))
TEXT = ("Count the ships on the poster.", "#set text(red) <b>$x$ {case}")


def test_it_is_declared_and_never_drawn_for() -> None:
    facts = shelf.kind("own-sheet").FACTS
    assert facts.basis == "declared"
    assert facts.own


@pytest.mark.parametrize("alphabet", own_sheet.ALPHABETS)
def test_it_carries_any_code_on_the_teachers_word(alphabet: str) -> None:
    answer = Answer(alphabet, ("a", "b"))  # type: ignore[arg-type]
    options = own_sheet.Options(said="A poster on the wall.")
    assert own_sheet.refuse(answer, options, Given()) is None
    sheet, knows = own_sheet.make(answer, options, Given(), Dice(1))
    (solution,) = own_sheet.solve(sheet, knows)
    assert solution.answer == answer
    assert "your word" in said(solution.working[0].says)


def test_why_the_code_is_the_answer_stands_in_the_teachers_key_alone() -> None:
    why = ("Four masts in front.", "Two behind, and seven at the pier.")
    options = own_sheet.Options(text=TEXT, because=why)
    sheet, knows = own_sheet.make(CODE, options, Given(), Dice(1))
    (solution,) = own_sheet.solve(sheet, knows)
    assert [said(step.says) for step in solution.working] == [*why, "This rests on your word."]
    page = page_for(shelf.kind("own-sheet"), sheet, "sheet", title="The Tide Mill", lang="en")
    assert not any(line in str(page.data()) for line in why)


def squares(answer: Answer, look: Look, **options: Any) -> int:
    """Count the squares on a page that one sign can be written into."""
    asked = own_sheet.Options(text=TEXT, **options)
    sheet, _ = own_sheet.make(answer, asked, Given(), Dice(1))
    page = page_for(shelf.kind("own-sheet"), sheet, "sheet", title="T", lang="en")
    drawn = list(object_boxes(pypdfium2.PdfDocument(render([page], look))[0]))
    return sum(abs(box.width - box.height) < 0.1 and 7 < box.width < 14 for box in drawn)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("code", ["7", "427", "ABCDEFGHIJKLMNOPQRSTUVWX"])
def test_there_is_a_box_for_each_sign_of_the_code(code: str, paper: str, size: int) -> None:
    look = Look(paper, size, "en")  # type: ignore[arg-type]
    answer = Answer("text", tuple(code))
    assert squares(answer, look) == len(code)
    assert squares(answer, look, boxes=False) == 0


def test_a_place_to_point_at_is_not_written_into_boxes() -> None:
    assert squares(Answer("place", ("door",)), Look("a4", 12, "en")) == 0


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
def test_markup_is_only_text_and_the_page_reads_back(paper: str, size: int) -> None:
    sheet, _ = own_sheet.make(CODE, own_sheet.Options(text=TEXT), Given(), Dice(1))
    kind = shelf.kind("own-sheet")
    page = page_for(kind, sheet, "sheet", title="The Tide Mill", lang="en")
    look = Look(paper, size, "en")  # type: ignore[arg-type]
    assert set(TEXT) <= set(page.prints)
    problems = read_back(render([page], look), [page], look)
    assert [problem.code for problem in problems] == []


def test_what_does_not_fit_on_a_page_is_refused() -> None:
    long = own_sheet.Options(text=("word " * 390,) * 12)
    sheet, _ = own_sheet.make(CODE, long, Given(), Dice(1))
    page = page_for(shelf.kind("own-sheet"), sheet, "sheet", title="T", lang="en")
    with pytest.raises(Refused):
        render([page], Look("a4", 18, "en"))


def pictured(paragraphs: int) -> bytes:
    """Return a page with a picture under so many paragraphs of three lines."""
    text = ("word " * 45,) * paragraphs
    options = own_sheet.Options(text=text, picture="ship.png", alt="A ship.")
    given = Given(pictures={"ship.png": (300.0, 200.0)})
    sheet, _ = own_sheet.make(CODE, options, given, Dice(1))
    page = page_for(shelf.kind("own-sheet"), sheet, "sheet", title="T", lang="en")
    drawn = BytesIO()
    Image.new("RGB", (300, 200)).save(drawn, "PNG")
    page = replace(page, files={"pictures/ship.png": drawn.getvalue()})
    return render([page], Look("a4", 12, "en"), "png", ppi=40)[0]


def test_a_picture_is_large_or_the_page_is_refused() -> None:
    """Text grows paragraph by paragraph: the picture never shrinks to one that nobody sees."""
    narrowest = 10_000
    for paragraphs in range(0, 40, 2):
        try:
            page = Image.open(BytesIO(pictured(paragraphs))).convert("L")
        except Refused:
            break
        black = max(page.crop((0, y, page.width, y + 1)).histogram()[0] for y in range(page.height))
        narrowest = min(narrowest, black)
    else:
        pytest.fail("forty paragraphs were not too many")
    assert narrowest >= 40 / 25.4 * 40 - 2


@pytest.mark.parametrize(
    ("options", "code"),
    [
        ({}, "own-sheet.empty"),
        ({"picture": "ship.png", "alt": "a ship"}, "own-sheet.no-picture"),
        ({"picture": "here.png"}, "own-sheet.no-alt"),
    ],
)
def test_what_is_missing_is_told(options: dict[str, Any], code: str) -> None:
    given = Given(pictures={"here.png": (3.0, 2.0)})
    problem = own_sheet.refuse(CODE, own_sheet.Options(**options), given)
    assert problem is not None
    assert problem.code == code


class TestInAGame:
    OLD = 'level = "easier"\nkind = "nonogram"'
    FIXED = (
        'closes = "case"\ncode = "auto"                     # drawn anew for each printed set',
        'closes = "case"\ncode = "583"',
    )

    def test_a_picture_of_the_folder_is_printed(self, tmp_path: Path) -> None:
        new = (
            'level = "easier"\nkind = "own-sheet"\n'
            'options = { picture = "ship.png", alt = "A ship.", text = ["How many sails?"] }'
        )
        game = demo(tmp_path, (self.OLD, new), self.FIXED)
        (game / "pictures").mkdir(exist_ok=True)
        Image.new("RGB", (300, 200), (120, 120, 120)).save(game / "pictures" / "ship.png")
        made = build(Asked(game, Wishes(level="easier")))
        assert printed(made)
        sheet = next(one for one in made.edition.sheets.values() if one.kind == "own-sheet")
        assert sheet.sheet["sheet"]["ratio"] == 1.5

    def test_a_drawn_code_is_refused_with_its_line(self, tmp_path: Path) -> None:
        new = 'level = "easier"\nkind = "own-sheet"\noptions = { said = "The poster." }'
        game = demo(tmp_path, (self.OLD, new))
        with pytest.raises(Refused) as refused:
            build(Asked(game))
        (problem,) = refused.value.problems
        assert problem.code == "code.own-drawn"
        assert problem.where.line

    def test_why_stands_in_key_and_debrief_and_on_nothing_that_pupils_get(self) -> None:
        made = build(Asked(EXAMPLES / "lost-trunk", Wishes(arrangement="brisk")))
        told = {
            one.name: "".join(page.get_textpage().get_text_range() for page in document)
            for one in printed(made)
            for document in [pypdfium2.PdfDocument(one.pdf)]
        }
        assert {name for name, text in told.items() if "Belize" in text} == {"key", "debrief"}
