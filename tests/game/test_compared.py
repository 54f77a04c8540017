"""What wishes change."""

from __future__ import annotations

from boxwright.game.arrange import Wishes
from boxwright.game.compared import Otherwise, compared
from tests.game.test_ties import game


def test_no_wish_changes_nothing() -> None:
    assert not compared(game(), game())


def test_a_level_names_clues_done_otherwise_and_what_comes_into_play() -> None:
    found = compared(game(), game(Wishes(level="harder")))
    assert Otherwise("boat-shed", "by-torch", "harder", "daylight") in found.otherwise
    assert found.come == ("torch",)
    assert found.gone == ()


def test_the_same_way_at_another_level_counts_as_otherwise() -> None:
    found = compared(game(), game(Wishes(level="harder")))
    assert Otherwise("tide-book", "questions", "harder", "questions") in found.otherwise


def test_back_again_it_leaves_play() -> None:
    assert compared(game(Wishes(level="harder")), game()).gone == ("torch",)
