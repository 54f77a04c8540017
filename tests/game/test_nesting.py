"""What lies in what, as played and as written."""

from __future__ import annotations

from pathlib import Path

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged
from boxwright.game.examples import examples
from boxwright.game.folder import Folder, read_game
from boxwright.game.nesting import (
    NOWHERE,
    Lying,
    Nesting,
    as_played,
    as_written,
    boxes_within,
    nested,
)


def opened(path: Path | None = None) -> Folder:
    """Return a game folder; the example where none is named."""
    folder = read_game(path or examples()["tide-mill"])
    assert isinstance(folder, Folder)
    return folder


def played(folder: Folder, wishes: Wishes | None = None) -> Nesting:
    """Return what lies in what under wishes."""
    arranged = arrange(folder, wishes)
    assert isinstance(arranged, Arranged)
    return as_played(folder, arranged.games[0].game)


def inside(nesting: Nesting, id: str) -> list[tuple[str, str]]:
    """Return what lies at a spot or in a box: ids, and parts of sheets."""
    for spot in nesting.spots:
        if spot.id == id:
            return [(one.thing.id, one.thing.part) for one in spot.inside]
    box = next(one for one in nesting if one.thing.id == id)
    return [(one.thing.id, one.thing.part) for one in box.inside]


def test_a_box_in_a_box_holds_what_is_in_it_and_its_locks() -> None:
    nesting = played(opened())
    assert inside(nesting, "case") == [("pouch", ""), ("boat-shed", "")]
    assert inside(nesting, "pouch") == [("mill-hands", "")]
    assert next(one.locks for one in nesting if one.thing.id == "chest") == ("water", "latch")


def test_a_part_that_lies_apart_is_shown_where_it_lies() -> None:
    nesting = played(opened())
    assert ("find-key", "key") in inside(nesting, "tin")
    assert ("find-key", "") in inside(nesting, "packet")


def test_spots_come_in_the_order_of_the_room_after_start_and_table() -> None:
    spots = [spot.id for spot in played(opened()).spots]
    assert spots == ["start", "table", "shelf", "sill", "reading-chair", "board"]


def test_what_no_way_brings_in_is_left_out_until_one_does() -> None:
    folder = opened()
    assert played(folder).left_out == ("torch",)
    harder = played(folder, Wishes(level="harder"))
    assert harder.left_out == ()
    assert ("torch", "") in inside(harder, "pouch")


def test_as_written_shows_the_first_place_that_the_room_has() -> None:
    nesting = as_written(opened())
    assert inside(nesting, "shelf") == [("safe", "")]
    assert ("torch", "") in inside(nesting, "pouch")


def test_boxes_that_lie_in_each_other_lie_nowhere_and_each_is_told_once() -> None:
    things = [Lying("a", "box", "b"), Lying("b", "box", "a"), Lying("note", "item", "a")]
    nesting = nested(opened(), things, {})
    assert nesting.spots[-1].id == NOWHERE
    assert sorted(one.thing.id for one in nesting) == ["a", "b", "note"]


def test_what_lies_in_a_box_that_is_not_there_lies_nowhere() -> None:
    nesting = nested(opened(), [Lying("note", "item", "gone")], {})
    assert inside(nesting, NOWHERE) == [("note", "")]


def test_boxes_within_are_the_box_itself_and_all_in_it() -> None:
    nesting = played(opened())
    assert boxes_within(nesting, "case") == {"case", "pouch"}
    assert boxes_within(nesting, "tin") == {"tin"}
    assert boxes_within(nesting, "torch") == frozenset()
