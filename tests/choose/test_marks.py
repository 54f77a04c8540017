"""Marks: every sheet of a printing has its own three signs, and keeps them."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright import paper
from boxwright.choose import marks
from boxwright.choose.marks import SIGNS, differences, draw_triple, say_triple, sheet_triples
from boxwright.dice import Dice
from boxwright.messages import words

DRAWINGS = Path(paper.__file__).with_name("marks.typ")


def test_sixteen_signs_are_named_and_drawn() -> None:
    drawn = re.findall(r"^  ([a-z]+): \($", DRAWINGS.read_text("utf-8"), re.MULTILINE)
    assert tuple(sorted(drawn)) == SIGNS
    assert len(SIGNS) == 16


def test_every_sign_has_a_name_to_say() -> None:
    assert words(say_triple(("kite", "bell", "oar"))) == "kite, bell, oar"
    assert all(words(say_triple((sign,) * 3)) == ", ".join([sign] * 3) for sign in SIGNS)


@given(st.sets(st.text("abcdefgh-", min_size=1, max_size=12), max_size=40), st.integers(0, 99))
def test_no_two_sheets_share_a_mark_and_one_misread_sign_makes_no_other(
    names: set[str], seed: int
) -> None:
    given_marks = sheet_triples(sorted(names), Dice(seed))
    assert set(given_marks) == names
    assert all(differences(a, b) >= 2 for a, b in combinations(given_marks.values(), 2))


def test_one_sheet_more_changes_no_other_mark() -> None:
    few = sheet_triples(["wind", "tide"], Dice(7))
    assert sheet_triples(["wind", "tide", "rain"], Dice(7)).items() >= few.items()
    assert sheet_triples(["rain", "wind", "tide"], Dice(7)).items() >= few.items()


def test_mondays_and_tuesdays_printings_differ() -> None:
    assert draw_triple(Dice("monday")) != draw_triple(Dice("tuesday"))
    assert draw_triple(Dice("monday")) == draw_triple(Dice("monday"))


def test_marks_last_for_4096_sheets_and_no_more() -> None:
    names = [str(number) for number in range(16**3)]
    assert len(set(sheet_triples(names[:280], Dice(1)).values())) == 280
    full = {(a, b, c) for a in SIGNS for b in SIGNS for c in SIGNS}
    with pytest.raises(ValueError, match="more sheets than marks"):
        marks._apart(Dice(1), full)
