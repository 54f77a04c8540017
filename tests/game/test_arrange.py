"""Wishes become games without versions: each rule of resolution, and every clash."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import ArrangedGame
from boxwright.game.folder import Folder, read_game
from boxwright.messages import words
from boxwright.problems import Problem
from boxwright.records import from_json, to_json

Changed = Callable[..., Path]


def read(folder: Path) -> Folder:
    outcome = read_game(folder)
    assert isinstance(outcome, Folder), [words(one.what) for one in outcome]
    return outcome


def game(folder: Path, **wishes: Any) -> ArrangedGame:
    outcome = arrange(read(folder), Wishes(**wishes))
    assert not isinstance(outcome, tuple), [words(one.what) for one in outcome]
    return outcome.of("1")


def faults(folder: Path, **wishes: Any) -> tuple[Problem, ...]:
    outcome = arrange(read(folder), Wishes(**wishes))
    assert isinstance(outcome, tuple)
    return outcome


# Which version.


def test_nothing_asked_gives_the_ordinary_game_to_the_fewest_groups(sample: Path) -> None:
    outcome = arrange(read(sample))
    assert not isinstance(outcome, tuple)
    assert outcome.groups == ("1",)
    assert outcome.of("1").chosen()["workers"] == "ordinary"


def test_on_a_tie_the_easier_is_taken(sample: Path) -> None:
    assert game(sample, level="ordinary").chosen()["sheaves"] == "daylight"


def test_a_level_takes_the_nearest_there_is(sample: Path) -> None:
    assert game(sample, level="hardest").chosen()["sheaves"] == "by-torch"
    assert game(sample, level="hardest").clues["sheaves"].level == "harder"


def test_of_two_as_near_the_first_in_the_file_is_taken(changed: Changed) -> None:
    folder = changed(('level = "harder"\nkind = "pigpen"', 'level = "easier"\nkind = "pigpen"'))
    assert game(folder, level="hardest").chosen()["mill-words"] == "blanks"


def test_a_version_without_level_is_made_at_the_level_wished(sample: Path) -> None:
    assert game(sample, level="hardest").clues["workers"].level == "hardest"
    assert game(sample).clues["workers"].level == "ordinary"


def test_an_arrangement_gives_level_and_versions(sample: Path) -> None:
    assert game(sample, arrangement="torch").chosen()["sheaves"] == "by-torch"
    assert game(sample, arrangement="torch").chosen()["mill-words"] == "fences"


def test_a_level_goes_before_an_arrangement(sample: Path) -> None:
    assert game(sample, arrangement="torch", level="easier").chosen()["sheaves"] == "daylight"


def test_a_version_named_goes_before_all(sample: Path) -> None:
    chosen = game(
        sample, arrangement="short", level="easier", versions={"sheaves": "by-torch"}
    ).chosen()
    assert chosen["sheaves"] == "by-torch"
    assert chosen["mill-words"] == "blanks"


def test_a_groups_own_level_goes_before_the_one_for_all(sample: Path) -> None:
    outcome = arrange(read(sample), Wishes(level="easier", levels={"2": "harder"}, groups=3))
    assert not isinstance(outcome, tuple)
    assert [share.groups for share in outcome.games] == [("1", "3"), ("2",)]
    assert outcome.of("2").chosen()["sheaves"] == "by-torch"
    with pytest.raises(KeyError):
        outcome.of("4")


def test_a_version_for_another_room_is_passed_over(sample: Path) -> None:
    assert game(sample).chosen()["find-key"] == "classroom"


def test_the_room_decides_and_its_facilities_too(changed: Changed) -> None:
    folder = changed(
        ('setting = "classroom"', 'setting = "library"'),
        ('facilities = ["projector", "board"]', 'facilities = ["catalogue"]'),
        file="room.toml",
    )
    assert game(folder).chosen()["find-key"] == "library"


def test_no_version_for_this_room_says_why_for_each(changed: Changed) -> None:
    folder = changed(('setting = "classroom"', 'setting = "library"'), file="room.toml")
    (problem,) = faults(folder)
    assert problem.code == "arrange.no-version-here"
    assert "the room lacks: catalogue" in words(problem.what)
    assert "it is for classroom" in words(problem.what)


def test_a_version_named_but_not_for_this_room_names_the_nearest(sample: Path) -> None:
    (problem,) = faults(sample, versions={"find-key": "library"})
    assert problem.code == "arrange.not-here-but"
    assert words(problem.what).endswith("The nearest that can is classroom.")


def test_a_tool_that_the_kit_lacks_bars_a_version(changed: Changed) -> None:
    folder = changed(('is = "uv-torch"', 'is = "mirror"'), file="kit.toml")
    assert game(folder, level="harder").chosen()["sheaves"] == "daylight"
    (problem,) = faults(folder, versions={"sheaves": "by-torch"})
    assert "the kit lacks: uv-torch" in words(problem.what)


def test_without_a_kit_no_tool_is_missed(sample: Path) -> None:
    (sample / "kit.toml").unlink()
    assert game(sample, level="harder").chosen()["sheaves"] == "by-torch"


@pytest.mark.parametrize(
    ("wishes", "code"),
    [
        ({"arrangement": "tourch"}, "no-arrangement-but"),
        ({"arrangement": "zzz"}, "no-arrangement"),
        ({"groups": 7}, "group-count"),
        ({"groups": 0}, "group-count"),
        ({"levels": {"2": "easier"}}, "no-group"),
        ({"versions": {"sheafs": "daylight"}}, "no-clue-but"),
        ({"versions": {"zzz": "daylight"}}, "no-clue"),
        ({"versions": {"sheaves": "nightlight"}}, "no-version"),
    ],
)
def test_a_wish_for_what_is_not_there_is_told(
    sample: Path, wishes: dict[str, Any], code: str
) -> None:
    assert [one.code for one in faults(sample, **wishes)] == [f"arrange.{code}"]


# What follows from it.


def test_what_a_version_adds_is_in_play_and_else_not(sample: Path) -> None:
    assert "torch" not in game(sample).items
    torch = game(sample, arrangement="torch")
    assert (torch.items["torch"].place, torch.locks["wind"].closes) == ("pouch", "pouch")


def test_what_a_version_drops_is_out_of_play(changed: Changed) -> None:
    folder = changed(
        ("options = { pictures = 30 }", 'drops = ["find-key", "latch", "brass-key"]'),
        ("after {brass-key}", "after this"),
    )
    found = game(folder)
    assert "find-key" not in found.clues
    assert "latch" not in found.locks
    assert "brass-key" not in found.items


def test_a_drop_goes_before_an_add(changed: Changed) -> None:
    folder = changed(
        ('kind = "pigpen"', 'kind = "pigpen"\ndrops = ["torch"]'),
        ('needs = ["torch"]\n', ""),
    )
    found = game(folder, arrangement="torch")
    assert "torch" not in found.items
    assert "pouch" in found.boxes


def test_an_optional_clue_comes_with_the_version_that_adds_it(changed: Changed) -> None:
    folder = changed(
        ('gives = "hatch"', 'gives = "hatch"\noptional = true'),
        ('adds = ["pouch", "torch"]', 'adds = ["pouch", "torch", "workers"]'),
    )
    assert "workers" not in game(folder).clues
    assert "workers" in game(folder, arrangement="torch").clues


def test_a_clue_out_of_play_adds_nothing(changed: Changed) -> None:
    folder = changed(
        ('kind = "logic-grid"', 'kind = "logic-grid"\ndrops = ["sheaves"]'),
    )
    assert "pouch" not in game(folder, arrangement="torch").boxes


def test_clues_that_drop_each_other_are_told(changed: Changed) -> None:
    folder = changed(
        ('kind = "logic-grid"', 'kind = "logic-grid"\ndrops = ["mill-words"]'),
        ('kind = "answer-blanks"', 'kind = "answer-blanks"\ndrops = ["workers"]'),
    )
    assert [one.code for one in faults(folder)] == ["arrange.endless"]


def test_two_versions_that_move_one_thing_apart_are_told(changed: Changed) -> None:
    folder = changed(('kind = "pigpen"', 'kind = "pigpen"\nmoves = { wind = "safe" }'))
    (problem,) = faults(folder, arrangement="torch")
    assert problem.code == "arrange.two-moves"
    assert "pouch" in words(problem.what)
    assert "safe" in words(problem.what)


def test_two_versions_that_move_one_thing_alike_agree(changed: Changed) -> None:
    folder = changed(('kind = "pigpen"', 'kind = "pigpen"\nmoves = { wind = "pouch" }'))
    assert game(folder, arrangement="torch").locks["wind"].closes == "pouch"


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('adds = ["pouch", "torch"]', 'adds = ["torch"]', "closes-absent"),
        ('adds = ["pouch", "torch"]', 'adds = ["pouch"]', "needs-absent"),
        ('needs = ["torch"]', 'drops = ["brass-key"]', "key-absent"),
        ('needs = ["torch"]', 'drops = ["brass-key"]', "gives-absent"),
        ('needs = ["torch"]', 'drops = ["hatch"]', "gives-absent"),
        ('needs = ["torch"]', 'drops = ["brass-key"]', "text-absent-when"),
        ('needs = ["torch"]', 'drops = ["brass-key"]', "text-absent"),
        ('needs = ["torch"]', 'drops = ["workers"]\non = "workers"', "host-absent"),
        ('adds = ["pouch", "torch"]', 'adds = ["torch"]\nmoves = {}', "nowhere-box"),
    ],
)
def test_what_names_a_thing_out_of_play_is_told(
    changed: Changed, old: str, new: str, code: str
) -> None:
    moves = [('moves = { wind = "pouch" }\n', "")] if "moves" in new else []
    folder = changed((old, new), *moves)
    told = {one.code for one in faults(folder, arrangement="torch")}
    assert f"arrange.{code}" in told


def test_sheets_drawn_on_each_other_in_a_circle_are_told(changed: Changed) -> None:
    folder = changed(
        ('kind = "logic-grid"', 'kind = "logic-grid"\non = "mill-words"'),
        ('kind = "answer-blanks"', 'kind = "answer-blanks"\non = "workers"'),
    )
    assert {one.code for one in faults(folder)} == {"arrange.host-circle"}


def test_a_sheet_drawn_on_another_lies_where_that_one_does(changed: Changed) -> None:
    folder = changed(('kind = "logic-grid"', 'kind = "logic-grid"\non = "mill-words"'))
    assert game(folder).clues["workers"].place == game(folder).clues["mill-words"].place == "safe"


# Texts.


def test_names_are_filled_in_and_braces_kept(sample: Path) -> None:
    told = game(sample, arrangement="torch").story.opening
    assert told[0] == "The recipe lies in the mill trunk."
    assert told[1] == "Beside it lies a zip pouch. Write {x} for x."
    assert game(sample, arrangement="torch").clues["mill-words"].hints == (
        "Look at the fences.", "Some hold a dot.", "The key is near a brass key.",
    )  # fmt: skip


def test_a_paragraph_about_an_absent_thing_is_not_told(sample: Path) -> None:
    assert len(game(sample).story.opening) == 1


# Places.


def test_any_takes_the_first_free_place_of_the_rooms_file(changed: Changed) -> None:
    folder = changed(('place = ["under-chair", "any low-shelf"]', 'place = "any low-shelf"'))
    assert game(folder).clues["sheaves"].place == "under-chair"


def test_any_leaves_places_that_are_named_outright(changed: Changed) -> None:
    folder = changed(
        ('place = ["under-chair", "any low-shelf"]', 'place = "any low-shelf"'),
        ('place = "shelf"', 'place = "table"'),
        ('content = "crew.csv"\nplace = "start"', 'place = "under-chair"'),
    )
    assert game(folder).clues["sheaves"].place == "shelf"


def test_any_with_nothing_free_goes_on_to_the_next_wish(changed: Changed) -> None:
    folder = changed(
        ('place = ["under-chair", "any low-shelf"]', 'place = ["any low-shelf", "trunk"]'),
        ('content = "crew.csv"\nplace = "start"', 'place = "under-chair"'),
    )
    assert game(folder).clues["sheaves"].place == "trunk"


def test_a_thing_that_a_place_cannot_hold_goes_on_to_the_next_wish(changed: Changed) -> None:
    folder = changed(
        ('place = ["window-sill", "any low-shelf"]', 'place = ["under-chair", "window-sill"]')
    )
    assert game(folder).items["brass-key"].place == "window-sill"


def test_a_place_of_another_room_is_passed_over(changed: Changed) -> None:
    folder = changed(
        ('place = ["window-sill", "any low-shelf"]', 'place = ["harbour", "window-sill"]')
    )
    assert game(folder).items["brass-key"].place == "window-sill"


def test_nowhere_names_what_the_room_has(changed: Changed) -> None:
    folder = changed(('place = "shelf"', 'place = "window-sill"'))
    (problem,) = faults(folder)
    assert problem.code == "arrange.nowhere"
    assert words(problem.what).endswith("Places that hold a box: shelf.")


def test_a_room_where_nothing_holds_it_says_so(changed: Changed) -> None:
    folder = changed(('holds = ["sheet", "small", "box"]', 'holds = ["sheet"]'), file="room.toml")
    assert "arrange.nowhere-at-all" in {one.code for one in faults(folder)}


def test_without_a_room_its_places_are_nowhere(changed: Changed) -> None:
    folder = changed(('rooms = ["classroom"]\n', ""))
    (folder / "room.toml").unlink()
    assert {one.code for one in faults(folder)} == {"arrange.no-room"}


def test_boxes_inside_each_other_in_a_circle_are_told(changed: Changed) -> None:
    folder = changed(('place = "shelf"', 'place = "trunk"'), ('place = "table"', 'place = "safe"'))
    assert {one.code for one in faults(folder)} == {"arrange.box-in-itself"}


def test_a_clue_to_an_item_needs_a_place_with_a_word(changed: Changed) -> None:
    folder = changed(('place = ["window-sill", "any low-shelf"]', 'place = "table"'))
    assert [one.code for one in faults(folder)] == ["arrange.place-without-word"]


def test_a_place_without_its_word_is_told_in_the_room_file(changed: Changed) -> None:
    folder = changed(('say = "SILL"\n', ""), file="room.toml")
    (problem,) = faults(folder)
    assert (problem.code, problem.where.file) == ("arrange.unsaid", "room.toml")


# What comes out.


def test_it_goes_to_json_and_back(sample: Path) -> None:
    found = game(sample, arrangement="torch")
    assert from_json(ArrangedGame, json.loads(json.dumps(to_json(found)))) == found


def test_a_clue_knows_where_its_version_stands(sample: Path) -> None:
    source = game(sample).clues["sheaves"].source
    line = (sample / "game.toml").read_text().split("\n")[(source.line or 0) - 1]
    assert line == "[clues.sheaves.versions.daylight]"


def test_times_are_whole_seconds(sample: Path) -> None:
    time = game(sample).time
    assert (time.bell_to_bell_s, time.play_s) == (2700, 25 * 60)


def test_a_locks_shape_is_kept(sample: Path) -> None:
    assert game(sample).locks["hatch"].shape.length == (4, 4)
