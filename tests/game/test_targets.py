"""Where things may be put, how they get there, and what goes with one that goes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged, ArrangedGame
from boxwright.game.commands import perform
from boxwright.game.folder import Folder
from boxwright.game.history import History
from boxwright.game.targets import Mover, going_with, left_behind, mover, targets
from tests.game.test_nesting import opened, played
from tests.games import EXAMPLES, changed

MOVES = 'needs = ["torch"]\nadds = ["torch"]'


def arranged_game(folder: Folder, wishes: Wishes | None = None) -> ArrangedGame:
    """Return a folder's game as the first group plays it."""
    arranged = arrange(folder, wishes)
    assert isinstance(arranged, Arranged)
    return arranged.games[0].game


def asked(one: Mover, to: str) -> dict[str, Any]:
    """Return the arguments of a mover's command with the new place in them."""
    args: dict[str, Any] = {
        key: dict(v) if isinstance(v, dict) else v for key, v in one.args.items()
    }
    table = args
    for step in one.at[:-1]:
        table = table[str(step)]
    table[str(one.at[-1])] = to
    return args


def test_a_lock_goes_on_boxes_alone() -> None:
    folder = opened()
    assert targets(folder, played(folder), "gear") == tuple(folder.game.boxes)


def test_a_box_goes_neither_into_itself_nor_where_only_sheets_lie() -> None:
    folder = opened()
    found = targets(folder, played(folder), "case")
    assert {"case", "pouch", "board", "reading-chair"}.isdisjoint(found)
    assert {"table", "shelf", "chest"} <= set(found)


def test_a_sheet_goes_wherever_sheets_are_held() -> None:
    folder = opened()
    assert "board" in targets(folder, played(folder), "eel-run")


@pytest.mark.parametrize("id", ["case", "gear", "notes", "eel-run"])
def test_every_place_offered_is_taken_by_the_command(tmp_path: Path, id: str) -> None:
    path = changed(EXAMPLES / "tide-mill", tmp_path, file="game.toml")
    folder, history = opened(path), History(path)
    for to in targets(folder, played(folder), id):
        one = mover(folder, arranged_game(folder), id)
        perform(history, one.command, asked(one, to), history.now().tag)


def test_a_part_is_moved_by_its_way_alone() -> None:
    folder = opened()
    one = mover(folder, arranged_game(folder), "find-key", "key")
    assert one.command == "version.change"
    assert asked(one, "safe") == {
        "clue": "find-key",
        "version": "fences",
        "parts": {"key": "safe"},
    }


def test_what_a_way_moves_is_moved_by_changing_that_way(tmp_path: Path) -> None:
    path = changed(
        EXAMPLES / "tide-mill",
        tmp_path,
        (MOVES, MOVES + '\nmoves = { gear = "case" }'),
        file="game.toml",
    )
    folder = opened(path)
    plain = mover(folder, arranged_game(folder), "gear")
    assert (plain.command, plain.clue) == ("thing.move", "")
    moved = mover(folder, arranged_game(folder, Wishes(level="harder")), "gear")
    assert (moved.command, moved.clue) == ("version.change", "boat-shed")
    assert asked(moved, "tin")["moves"] == {"gear": "tin"}


def test_ways_that_lie_in_one_place_move_together_and_others_alone(tmp_path: Path) -> None:
    folder = opened()
    assert mover(folder, arranged_game(folder), "boat-shed").args == {"id": "boat-shed"}
    apart = changed(
        EXAMPLES / "tide-mill",
        tmp_path,
        ('kind = "unseen-ink"\nplace = "case"', 'kind = "unseen-ink"\nplace = "table"'),
        file="game.toml",
    )
    folder = opened(apart)
    one = mover(folder, arranged_game(folder), "boat-shed")
    assert one.args == {"id": "boat-shed", "version": "daylight"}


def test_a_box_takes_its_locks_and_their_clues_with_it() -> None:
    assert going_with(opened(), "tin") == ("gear", "mill-hands")
    assert going_with(opened(), "brass-key") == ("find-key",)


def test_what_lies_in_a_box_itself_stays_behind() -> None:
    folder = opened()
    assert left_behind(played(folder), "case") == ("pouch", "boat-shed")
    assert left_behind(played(folder), "brass-key") == ()
