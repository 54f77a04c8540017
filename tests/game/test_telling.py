"""A text as it is told: whose names stand in it, what is wrong with them, and who hears it."""

from __future__ import annotations

import pytest

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged
from boxwright.game.folder import Folder, read_game
from boxwright.game.telling import Piece, groups_with, nameable, text_faults, told
from tests.games import EXAMPLES


@pytest.fixture(scope="module")
def folder() -> Folder:
    found = read_game(EXAMPLES / "tide-mill")
    assert isinstance(found, Folder)
    return found


def test_names_are_told_apart_from_the_words_around_them(folder: Folder) -> None:
    assert told(folder, "Open {case}, {{so}}.") == (
        Piece("Open "),
        Piece("the miller's tin case", "case"),
        Piece(", "),
        Piece("{"),
        Piece("so"),
        Piece("}"),
        Piece("."),
    )


def test_a_place_of_the_room_has_a_name_too(folder: Folder) -> None:
    assert told(folder, "{sill}") == (Piece("the window sill", "sill"),)


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("Open {case} at {sill}.", []),
        ("Open {chset}.", ["game.unknown-name-but"]),
        ("Turn {sluice}.", ["game.nameless"]),
        ("Open {case", ["game.stray-brace"]),
    ],
)
def test_what_is_wrong_with_names_is_told(folder: Folder, text: str, codes: list[str]) -> None:
    assert [one.code for one in text_faults(folder, text)] == codes


def test_boxes_items_and_places_can_be_named_and_nothing_else(folder: Folder) -> None:
    names = dict(nameable(folder))
    assert names["torch"] == "a torch with violet light"
    assert {"chest", "sill"} <= names.keys()
    assert not {"sluice", "eel-run"} & names.keys()


def arranged(folder: Folder, wishes: Wishes) -> Arranged:
    found = arrange(folder, wishes)
    assert isinstance(found, Arranged)
    return found


def test_only_groups_that_play_with_a_thing_hear_of_it(folder: Folder) -> None:
    mixed = arranged(folder, Wishes(groups=2, levels={"1": "easier", "2": "harder"}))
    assert groups_with(mixed, folder, "torch") == ("2",)
    assert groups_with(mixed, folder, "case") == ("1", "2")
    assert groups_with(mixed, folder, "sill") == ("1", "2")


def test_nobody_hears_of_what_is_out_of_play(folder: Folder) -> None:
    easy = arranged(folder, Wishes(level="easier"))
    assert groups_with(easy, folder, "torch") == ()
