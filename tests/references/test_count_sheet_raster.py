"""Connected components by SciPy (scipy.ndimage.label): as many pieces of ink as pictures."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from scipy import ndimage

from boxwright.dice import Dice
from boxwright.game.model import Level
from boxwright.paper.frame import PAPERS, Look
from boxwright.paper.page import page_for
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.picture_field import Field
from boxwright.puzzles.shelf import kind
from tests.puzzles.printed_field import PIXELS, Printed, blots, field_in, page_of

KIND = kind("count-sheet")
CODES: list[tuple[str, Level]] = [("1", "easier"), ("427", "ordinary"), ("9999", "hardest")]


def printed(code: str, level: Level, look: Look) -> tuple[Field, Printed]:
    made = KIND.make(Answer("digits", tuple(code)), KIND.Options(), Given(level=level), Dice(code))
    page = page_for(KIND, made.sheet, "sheet", title="A field of pictures", lang="en")
    (grey,) = page_of([page], look)
    return made.sheet.sheet, field_in(grey)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", [12, 18])
@pytest.mark.parametrize(("code", "level"), CODES)
def test_there_are_as_many_pieces_of_ink_as_pictures(
    code: str, level: Level, paper: Any, size: Any
) -> None:
    field, found = printed(code, level, Look(paper, size))
    _, count = blots(found.grey)
    assert count == len(field.placed)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("code", "level"), CODES)
def test_ink_grown_by_nearly_a_millimetre_all_round_still_does_not_meet(
    code: str, level: Level, paper: Any
) -> None:
    """So that any two pictures are two millimetres apart, at 18 pt, where the field is lowest."""
    field, found = printed(code, level, Look(paper, 18))
    away = ndimage.distance_transform_edt(found.grey >= 128)
    _, count = ndimage.label(away <= 0.95 * PIXELS, np.ones((3, 3)))
    assert count == len(field.placed)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("code", "level"), CODES)
def test_each_piece_lies_where_the_sheet_says_and_the_pieces_of_each_sort_make_the_code(
    code: str, level: Level, paper: Any
) -> None:
    field, found = printed(code, level, Look(paper, 14))
    labels, _ = blots(found.grey)
    boxes: list[Any] = ndimage.find_objects(labels)
    size = field.sorts[0].width * PIXELS
    counted: Counter[str] = Counter()
    for down, across in boxes:
        middle = ((down.start + down.stop) / 2, (across.start + across.stop) / 2)
        near, away = min(
            (
                (it, np.hypot(*np.subtract(found.place(field, it.x, it.y), middle)))
                for it in field.placed
            ),
            key=lambda pair: pair[1],
        )
        assert away < size / 4
        counted[near.picture] += 1
    assert "".join(str(counted[name]) for name in field.asked) == code


def test_two_pictures_that_touch_make_one_piece_too_few() -> None:
    """The check can fail."""
    made = KIND.make(Answer("digits", ("3",)), KIND.Options(), Given(), Dice(1))
    field = made.sheet.sheet
    first, second, *rest = field.placed
    onto = replace(second, x=first.x + field.sorts[0].width / 3, y=first.y)
    placed = (first, onto, *(it for it in rest if abs(it.y - first.y) > 45))
    sheet = replace(made.sheet, sheet=replace(field, placed=placed))
    page = page_for(KIND, sheet, "sheet", title="A field of pictures", lang="en")
    (grey,) = page_of([page], Look())
    assert blots(field_in(grey).grey)[1] < len(placed)
