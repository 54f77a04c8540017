"""The ways to do a clue are added, changed and taken away, with the wishes for them."""

from __future__ import annotations

from tests.game.commands.conftest import Player


def test_a_version_comes_behind_the_others_of_its_clue(play: Player) -> None:
    lines = play.lines(
        "version.add", clue="workers", kind="nonogram", place="start", level="harder"
    )
    assert lines == [
        "+ [clues.workers.versions.harder]",
        '+ level = "harder"',
        '+ kind = "nonogram"',
        '+ place = "start"',
        "+ ",
    ]
    before, _, after = play.text().partition("[clues.workers.versions.harder]")
    assert before.endswith('place = "start"\n\n')
    assert after.split("\n\n")[1].startswith("[clues.mill-words]")


def test_versions_of_one_level_get_other_names(play: Player) -> None:
    add = {"clue": "workers", "kind": "nonogram"}
    assert play("version.add", **add, level="harder") == "harder"
    assert play("version.add", **add, level="harder") == "harder-2"
    assert play("version.add", **add) == "nonogram"
    assert play("version.add", **add, name="The rainy day") == "rainy-day"


def test_fields_of_a_version_change_alone(play: Player) -> None:
    lines = play.lines(
        "version.change", clue="mill-words", version="fences", level=None, place=["safe", "trunk"],
        parts={"key": "shelf"}, written_on=True,
    )  # fmt: skip
    assert lines == [
        '- level = "harder"',
        '- place = "safe"',
        '+ place = ["safe", "trunk"]',
        '- parts = { key = "window-sill" }',
        '+ parts = { key = "shelf" }',
        "+ written_on = true",
    ]


def test_another_kind_takes_away_what_the_old_one_understood(play: Player) -> None:
    play("version.change", clue="mill-words", version="fences", options={"order": "in-turn"})
    play("version.change", clue="mill-words", version="fences", kind="nonogram")
    fences = play.data()["clues"]["mill-words"]["versions"]["fences"]
    assert fences["kind"] == "nonogram"
    assert not {"options", "parts", "content", "on"} & set(fences)
    assert "hints" in fences  # in the teacher's own words


def test_the_same_kind_keeps_its_options(play: Player) -> None:
    play("version.change", clue="mill-words", version="fences", options={"order": "in-turn"})
    play("version.change", clue="mill-words", version="fences", kind="pigpen", level="easier")
    fences = play.data()["clues"]["mill-words"]["versions"]["fences"]
    assert fences["options"] == {"order": "in-turn"}


def test_one_hint_changes_in_its_list(play: Player) -> None:
    hints = ["Look at the fences.", "Some hold two dots.", "The key is near {brass-key}."]
    play("version.change", clue="mill-words", version="fences", hints=hints)
    assert '"Some hold two dots.", "The key' in play.text()


def test_a_version_goes_with_the_wishes_for_it(play: Player) -> None:
    play("version.remove", clue="sheaves", version="daylight")
    data = play.data()
    assert list(data["clues"]["sheaves"]["versions"]) == ["by-torch"]
    assert data["arrangements"]["short"] == {"level": "easier"}
    problem = play.refused("version.remove", clue="sheaves", version="by-torch")
    assert problem.code == "change.last-version"


def test_versions_are_of_clues(play: Player) -> None:
    assert play.refused("version.add", clue="safe", kind="x").code == "change.no-clue"
    assert play.refused("version.remove", clue="wind", version="x").code == "change.no-clue"


def test_an_arrangement_is_set_as_a_whole(play: Player) -> None:
    lines = play.lines("arrangement.set", arrangement="short", versions={"sheaves": "by-torch"})
    assert lines == [
        '- level = "easier"',
        '- versions = { sheaves = "daylight" }',
        '+ versions = { sheaves = "by-torch" }',
    ]
    play("arrangement.set", arrangement="calm", level="ordinary")
    assert play.data()["arrangements"]["calm"] == {"level": "ordinary"}
    problem = play.refused("arrangement.set", arrangement="x", versions={"sheaves": "none"})
    assert problem.code == "game.unknown-version"


def test_an_arrangement_goes(play: Player) -> None:
    play("arrangement.remove", arrangement="short")
    assert "short" not in play.data()["arrangements"]
    problem = play.refused("arrangement.remove", arrangement="short")
    assert problem.code == "change.no-arrangement"


def test_a_version_is_called_otherwise_in_its_place_and_in_wishes(play: Player) -> None:
    versions = list(play.data()["clues"]["sheaves"]["versions"])
    new = play("version.rename", clue="sheaves", version="daylight", name="By Day!")
    data = play.data()
    assert new == "by-day"
    assert list(data["clues"]["sheaves"]["versions"]) == [
        "by-day" if one == "daylight" else one for one in versions
    ]
    assert data["arrangements"]["short"]["versions"]["sheaves"] == "by-day"


def test_a_versions_new_name_is_no_others(play: Player) -> None:
    rename = {"clue": "sheaves", "version": "daylight"}
    assert play("version.rename", **rename, name="by torch") == "by-torch-2"
    problem = play.refused("version.rename", **rename, name="bright")
    assert problem.code == "change.no-version"
