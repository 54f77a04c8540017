"""New things come behind the last of their sort, in the hand of the house, under a free id."""

from __future__ import annotations

import pytest

from boxwright.game.commands import perform
from boxwright.game.history import Moment
from boxwright.problems import Refused
from tests.game.commands.conftest import Player


def test_a_box_comes_behind_the_last_box(play: Player) -> None:
    assert play.lines(
        "box.add", name="the biscuit tin", place="shelf", inside_mm=[150, 120, 5.5]
    ) == [
        "+ [boxes.biscuit-tin]",
        '+ name = "the biscuit tin"',
        '+ place = "shelf"',
        "+ inside_mm = [150, 120, 5.5]",
        "+ ",
    ]
    before, _, after = play.text().partition("\n[boxes.biscuit-tin]")
    assert before.endswith("locks = 1\n")
    assert after.index("[locks.count]") < 120


def test_a_lock_says_its_mechanism_first(play: Player) -> None:
    lines = play.lines(
        "lock.add", mechanism="number-wheels", closes="pouch", wheels=4, code="1234",
        stand_in="allowed",
    )  # fmt: skip
    assert lines[:-1] == [
        "+ [locks.pouch-lock]",
        '+ mechanism = "number-wheels"',
        "+ wheels = 4",
        '+ closes = "pouch"',
        '+ code = "1234"',
        '+ stand_in = "allowed"',
    ]


def test_an_item_lies_where_it_is_put(play: Player) -> None:
    assert play("item.add", name="A lamp", place=["shelf", "any low-shelf"], tool="lamp") == "lamp"
    assert play.data()["items"]["lamp"] == {
        "name": "A lamp",
        "place": ["shelf", "any low-shelf"],
        "tool": "lamp",
    }


def test_a_clue_comes_with_its_first_version(play: Player) -> None:
    play("lock.add", mechanism="number-wheels", closes="pouch", wheels=3, name="gate")
    lines = play.lines(
        "clue.add", gives="gate", kind="nonogram", place="safe", level="easier", goals=["fibre"],
        options={"ground": "waves"},
    )  # fmt: skip
    assert lines[:-1] == [
        "+ [clues.gate-clue]",
        '+ gives = "gate"',
        '+ goals = ["fibre"]',
        "+ ",
        "+ [clues.gate-clue.versions.easier]",
        '+ level = "easier"',
        '+ kind = "nonogram"',
        '+ options = { ground = "waves" }',
        '+ place = "safe"',
    ]


def test_an_id_is_free_and_no_places_name(play: Player) -> None:
    assert play("box.add", name="Safe") == "safe-2"
    assert play("box.add", name="The safe!") == "safe-3"
    assert play("box.add", name="shelf") == "shelf-2"
    assert play("box.add", name="Table") == "table-2"
    assert play("box.add", name="箱") == "box"
    long = "a very long name of a box that goes on and on and on and on"
    assert play("box.add", name=long) == "very-long-name-of-a-box-that-goes-on-and"
    assert play("box.add", name=long) == "very-long-name-of-a-box-that-goes-on-a-2"


def test_the_first_of_its_sort_comes_where_its_sort_belongs(play: Player) -> None:
    text = play.text()
    (play.folder / "game.toml").write_text(text[: text.index("\n[arrangements.short]")])
    play("arrangement.set", arrangement="gentle", level="easier")
    assert play.text().endswith('\n\n[arrangements.gentle]\nlevel = "easier"\n')


@pytest.mark.parametrize(
    ("name", "args", "field", "code"),
    [
        ("box.add", {}, "name", "folder.missing-key"),
        ("box.add", {"name": ""}, "name", "folder.empty-text"),
        ("box.add", {"name": "x" * 81}, "name", "folder.long-text"),
        ("box.add", {"name": "x", "colour": 1}, "colour", "folder.unknown-key"),
        ("box.add", {"name": "x", "nmae": 1}, "nmae", "folder.unknown-key"),
        ("box.add", {"name": 3}, "name", "folder.wrong-sort-but"),
        ("box.add", {"name": "x", "place": "nowhere"}, "place", "game.unknown-name"),
        ("box.add", {"name": "x", "place": "shelv"}, "place", "game.unknown-name-but"),
        ("box.add", {"name": "x", "inside_mm": [1, 2]}, "inside_mm", "folder.too-few"),
        ("lock.add", {"mechanism": "wheels", "closes": "x"}, "mechanism", "folder.no-choice-but"),
        ("lock.add", {"mechanism": "dial", "closes": "torch"}, "closes", "game.wrong-thing"),
        ("lock.add", {"mechanism": "dial", "closes": "safe", "wheels": 99}, "wheels",
         "folder.less-than-equal"),
        ("item.add", {"name": "x\u200b", "place": "safe"}, "name", "folder.control-sign"),
        ("clue.add", {"gives": "count", "kind": "Nono"}, "kind", "folder.bad-id-used"),
        ("clue.add", {"gives": "count", "kind": "x", "needs": ["safe"]}, "needs",
         "game.wrong-thing"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_told_at_its_field(
    play: Player, name: str, args: dict[str, object], field: str, code: str
) -> None:
    problem = play.refused(name, **args)
    assert (problem.code, problem.where.file, problem.where.path[:1]) == (code, name, (field,))
    assert problem.where.line is None


def test_an_unknown_command_is_told(play: Player) -> None:
    assert play.refused("box.ad").what.args["name"] == "box.ad"


def test_a_change_for_another_state_is_not_made(play: Player, moment: Moment) -> None:
    play("box.add", name="a tin")
    before = play.files()
    with pytest.raises(Refused) as caught:
        perform(play.history, "box.add", {"name": "a tub"}, moment.tag)
    assert [one.code for one in caught.value.problems] == ["edit.changed-meanwhile"]
    assert play.files() == before
