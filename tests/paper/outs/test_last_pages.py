"""What the last page of a print-out holds: never a line or two, or one group, by itself."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pypdfium2
import pytest

from boxwright.build import Asked, build
from boxwright.choose.chance import Chance
from boxwright.game.arrange import Wishes
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.outs import closing, reset, set_up
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.paper.render import render
from tests.games import EXAMPLES

LONG = "The long way home of a small puppet theatre that lost its trunk in the rain"
CARDS = {"reset": reset, "set-up": set_up}


@cache
def about_to_print(groups: int, look: Look) -> Printing:
    made = build(Asked(EXAMPLES / "lost-trunk", Wishes(groups=groups), Chance(1)))
    return Printing(made.folder, made.edition, look)


def pages_of(page: Page, look: Look) -> list[str]:
    document = pypdfium2.PdfDocument(render([page], look))
    return [one.get_textpage().get_text_range() for one in document]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("groups", [3, 6])
@pytest.mark.parametrize("name", CARDS)
def test_the_last_part_of_a_card_stays_on_one_page(
    name: str, groups: int, paper: str, size: int
) -> None:
    look = Look(paper, size)  # type: ignore[arg-type]
    card, *_ = CARDS[name].pages(about_to_print(groups, look))
    last = card.sheet["parts"][-1]
    assert last["title"] in pages_of(card, look)[-1]


def closed(groups: int, look: Look, paragraphs: int, title: str = "") -> list[str]:
    """Return the texts of the sheets that a closing of so many paragraphs takes."""
    (page,) = closing.pages(about_to_print(groups, look))
    title = title or page.title
    more = {"title": title, "paragraphs": page.sheet["paragraphs"] * paragraphs}
    sheet = {**page.sheet, **more}
    return pages_of(replace(page, title=title, sheet=sheet, prints=()), look)


@pytest.mark.parametrize("title", ["", LONG])
@pytest.mark.parametrize("paragraphs", [1, 2, 3])
@pytest.mark.parametrize("groups", [3, 4, 5, 6])
def test_up_to_six_groups_close_on_one_sheet(groups: int, paragraphs: int, title: str) -> None:
    assert len(closed(groups, Look("a4", 12), paragraphs, title)) == 1


@pytest.mark.parametrize("paragraphs", [1, 2, 3])
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("groups", [3, 4, 5, 6])
def test_no_group_is_alone_on_a_second_sheet(
    groups: int, paper: str, size: int, paragraphs: int
) -> None:
    look = Look(paper, size)  # type: ignore[arg-type]
    first, *more = closed(groups, look, paragraphs)
    assert [sheet.count("Group and") for sheet in more if sheet.count("Group and") < 2] == []
    assert "".join([first, *more]).count("Group and") == groups
