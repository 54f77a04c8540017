"""How many hints a group may ask for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from boxwright.build import Asked, build
from boxwright.game.arranged import ArrangedGame
from boxwright.game.hinting import LINES, hints_allowed

MILL = Path(__file__).parents[1] / "paper" / "outs" / "mill"


@pytest.fixture(name="game", scope="module")
def mill() -> ArrangedGame:
    """Five locks with codes, one with a key, four clues, from six years on."""
    return build(Asked(MILL)).edition.game


@pytest.mark.parametrize(("ages", "hints"), [((6, 9), 5), ((10, 12), 4), ((14, 16), 3)])
def test_the_younger_they_are_the_more_hints_there_are(
    game: ArrangedGame, ages: tuple[int, int], hints: int
) -> None:
    assert hints_allowed(replace(game, ages=ages)) == hints


def test_a_number_that_the_game_gives_counts(game: ArrangedGame) -> None:
    assert [hints_allowed(replace(game, hints=number)) for number in (0, 2)] == [0, 2]


def test_there_are_never_more_than_three_for_each_clue(game: ArrangedGame) -> None:
    assert hints_allowed(replace(game, hints=99)) == LINES * len(game.clues)
    assert hints_allowed(replace(game, clues={})) == 0
