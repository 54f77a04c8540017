"""One sheet with its key: pupils' pages without the answer, and one page that has it all."""

from __future__ import annotations

import pytest

from boxwright.choose.answers import answer_of
from boxwright.choose.marks import Mark
from boxwright.choose.sheets import make_sheet
from boxwright.choose.suggest import suggest
from boxwright.dice import Dice
from boxwright.game.mechanisms import device_of
from boxwright.game.model import LockMake
from boxwright.paper.frame import Look
from boxwright.paper.keyed_sheet import Keyed
from boxwright.paper.opened import opened
from boxwright.problems import Where
from boxwright.puzzles.contract import Given

CODE = ("5", "3", "8")
MARK = Mark(("bell", "boat", "comb"), ("cup", "fish", "gate"))


def keyed(kind: str) -> Keyed:
    device = device_of(
        LockMake.model_validate({"mechanism": "number-wheels", "wheels": 3}), Where("lock")
    )
    answer = answer_of(device, CODE)
    assert answer is not None
    found = (one for turn in range(12) for one in suggest(answer, Given(), Dice(1), turn).sheets)
    request = next(one.request for one in found if one.request.kind == kind)
    made = make_sheet(request, Dice(7), lambda path: Where("lock"))
    return Keyed(made, MARK, "A sheet to try", device, CODE, "Made for ages 9 to 11.")


def texts(pdf: bytes) -> list[str]:
    with opened(pdf) as document:
        pages = (document[at] for at in range(len(document)))
        return [" ".join(page.get_textpage().get_text_range().split()) for page in pages]


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("kind", ["nonogram", "pigpen", "unseen-ink"])
def test_the_pdf_has_every_part_and_the_key_last(kind: str, paper: str) -> None:
    sheet = keyed(kind)
    look = Look(paper)  # type: ignore[arg-type]
    *parts, key = texts(sheet.pdf(look))
    assert len(parts) == len(sheet.pages(look))
    assert "Key: A sheet to try" in key
    assert "538" in key
    assert all("Key: A sheet to try" not in part for part in parts)
    assert all("538" not in part for part in parts)


def test_the_key_tells_working_hints_and_mistakes_and_shows_the_lock() -> None:
    sheet = keyed("nonogram")
    (entry,) = sheet.key(Look()).sheet["entries"]
    solved = sheet.solved("en")
    assert entry["working"] == solved.working()
    assert entry["hints"] == list(solved.hints())
    assert len(entry["hints"]) == 3
    assert entry["mistakes"] == solved.mistake_lines()
    assert entry["code"]["faces"] == list(CODE)
    assert entry["drawings"][0]["solved"] is not None
