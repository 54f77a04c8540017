"""A thing is renamed, called otherwise, put elsewhere, or set in one field."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from boxwright.game.commands import perform
from boxwright.game.draft import Draft
from boxwright.messages import words
from boxwright.problems import Problem, Refused, Where
from tests.game.commands.conftest import Player


def test_a_renamed_thing_is_renamed_wherever_it_is_used(play: Player) -> None:
    assert play("thing.rename", id="pouch", new="bag") == "bag"
    assert "pouch" not in play.text().replace("a zip pouch", "")


def test_a_taken_id_is_refused(play: Player) -> None:
    assert play.refused("thing.rename", id="pouch", new="safe").code == "rename.taken"
    assert play.refused("thing.rename", id="pouch", new="shelf").code == "rename.taken-by-room"


def test_a_name_changes_in_its_line(play: Player) -> None:
    assert play.lines("thing.name", id="pouch", name='a "blue" pouch') == [
        '- name = "a zip pouch"',
        r'+ name = "a \"blue\" pouch"',
    ]
    assert play.refused("thing.name", id="wind", name="x").code == "change.no-name"
    assert play.refused("thing.name", id="none", name="x").code == "change.no-such-thing"


@pytest.mark.parametrize(
    ("id", "to", "line"),
    [
        ("torch", "safe", '+ place = "safe"'),
        ("torch", ["safe", "any ledge"], '+ place = ["safe", "any ledge"]'),
        ("safe", "trunk", '+ place = "trunk"'),
        ("wind", "safe", '+ closes = "safe"'),
        ("workers", "trunk", '+ place = "trunk"'),
    ],
)
def test_a_thing_is_put_elsewhere(play: Player, id: str, to: Any, line: str) -> None:
    came = [one for one in play.lines("thing.move", id=id, to=to) if one.startswith("+")]
    assert came == [line]


def test_all_versions_of_a_clue_move_or_one(play: Player) -> None:
    play("thing.move", id="sheaves", to="trunk", version="daylight")
    versions = play.data()["clues"]["sheaves"]["versions"]
    assert versions["daylight"]["place"] == "trunk" != versions["by-torch"]["place"]
    play("thing.move", id="sheaves", to="safe")
    versions = play.data()["clues"]["sheaves"]["versions"]
    assert [one["place"] for one in versions.values()] == ["safe", "safe"]
    problem = play.refused("thing.move", id="sheaves", to="safe", version="none")
    assert problem.code == "change.no-version"


def test_a_box_cannot_lie_in_itself_even_by_way_of_others(play: Player) -> None:
    assert play.refused("thing.move", id="safe", to="safe").code == "change.box-in-itself"
    play("thing.move", id="safe", to="trunk")
    play("thing.move", id="trunk", to=["shelf", "pouch"])
    assert play.refused("thing.move", id="pouch", to="safe").code == "arrange.box-in-itself"


def test_nothing_is_put_where_there_is_no_place(play: Player) -> None:
    problem = play.refused("thing.move", id="wind", to="table")
    assert (problem.code, problem.where.file) == ("game.unknown-name", "game.toml")
    assert play.refused("thing.move", id="torch", to="hatch").code == "game.wrong-thing"


def test_one_field_is_set_and_taken_away(play: Player) -> None:
    assert play.lines("thing.set", id="safe", field="inside_mm", value=[90.0, 60, 40.5]) == [
        "+ inside_mm = [90, 60, 40.5]"
    ]
    assert play.lines("thing.set", id="wind", field="code", value="auto") == [
        '- code = "one of PAPER FIBRE"',
        '+ code = "auto"',
    ]
    assert play.lines("thing.set", id="wind", field="code") == ['- code = "auto"']
    assert play.lines("thing.set", id="find-key", field="goals", value=["scales"]) == [
        '+ goals = ["scales"]'
    ]


@pytest.mark.parametrize(
    ("args", "code", "path"),
    [
        ({"id": "safe", "field": "colour", "value": 1}, "folder.unknown-key", ("value",)),
        ({"id": "safe", "field": "locks", "value": "two"}, "folder.wrong-sort", ("value",)),
        ({"id": "wind", "field": "wheels", "value": 11}, "folder.less-than-equal", ("value",)),
        ({"id": "wind", "field": "mechanism"}, "folder.missing-key", ("value",)),
        ({"id": "torch", "field": "name", "value": "x" * 5000}, "folder.odd-value", ("value",)),
        ({"id": "torch", "field": "a = 1\n[b]", "value": 1}, "folder.unknown-key", ("value",)),
    ],
)
def test_a_value_that_does_not_fit_is_told(
    play: Player, args: dict[str, Any], code: str, path: tuple[str, ...]
) -> None:
    problem = play.refused("thing.set", **args)
    assert (problem.code, problem.where.path[:1]) == (code, path)


def test_line_ends_and_the_mark_of_the_file_stay(play: Player) -> None:
    path = play.folder / "game.toml"
    before = b"\xef\xbb\xbf" + play.text().replace("\n", "\r\n").encode()
    path.write_bytes(before)
    play("thing.set", id="safe", field="locks", value=2)
    after = path.read_bytes()
    assert after.replace(b"locks = 2\r\n", b"", 1) == before


def test_a_game_with_a_fault_can_be_changed_elsewhere(play: Player) -> None:
    path = play.folder / "game.toml"
    path.write_text(play.text().replace("ages = [9, 11]", "ages = [11, 9]"))
    perform(play.history, "box.add", {"name": "a tin"}, play.history.now().tag)
    assert "[boxes.tin]" in play.text()


def test_a_game_that_is_no_toml_is_told_and_its_tables_can_be_changed(play: Player) -> None:
    (play.folder / "game.toml").write_text("= no toml")
    problem = play.refused("box.add", name="a tin")
    assert (problem.code, problem.where.file) == ("folder.no-statement", "game.toml")
    args = {"name": "more.csv", "text": "a"}
    perform(play.history, "content.put", args, play.history.now().tag)
    assert (play.folder / "content/more.csv").read_bytes() == b"a\n"


def test_checks_of_other_units_are_heard(play: Player) -> None:
    def no_tins(draft: Draft) -> Iterator[Problem]:
        for id in draft.game.boxes:
            if "tin" in id:
                yield Problem.of(
                    "change.no-name", draft.where("game.toml", ("boxes", id, "name")), id=id
                )

    tag, before = play.history.now().tag, play.files()
    with pytest.raises(Refused) as caught:
        perform(play.history, "box.add", {"name": "a tin"}, tag, also=[no_tins])
    assert caught.value.problems[0].where == Where("box.add", ("name",))
    assert play.files() == before
    perform(play.history, "box.add", {"name": "a tub"}, tag, also=[no_tins])


def test_a_field_that_was_changed_is_called_as_people_call_it(play: Player) -> None:
    id = next(iter(play.data()["boxes"]))
    play("thing.set", id=id, field="inside_mm", value=[300, 200, 90])
    said = play.history.now().undo
    assert said is not None
    assert "the inside measures" in words(said)
