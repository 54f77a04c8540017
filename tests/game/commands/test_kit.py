"""Locks, boxes, tools, keys and makes come to the shelf, change, and go with what names them."""

from __future__ import annotations

from tests.game.commands.conftest import Player

KIT = "kit.toml"


def test_a_lock_gets_the_next_free_sticker_of_its_mechanism(play: Player) -> None:
    tags = set(play.data(KIT)["locks"])
    new = play("kit.lock.add", mechanism="number-wheels", wheels=3, shelf_code="000")
    assert new[0] == "N"
    assert new not in tags
    assert play.data(KIT)["locks"][new] == {
        "mechanism": "number-wheels", "wheels": 3, "shelf_code": "000",
    }  # fmt: skip
    model = next(iter(play.data(KIT)["models"]))
    assert play("kit.lock.add", model=model)[0] in "NW"


def test_a_sticker_is_on_one_thing_alone(play: Player) -> None:
    tag = next(iter(play.data(KIT)["boxes"]))
    problem = play.refused("kit.lock.add", mechanism="dial", tag=tag)
    assert problem.code == "change.tag-taken"


def test_a_lock_changes_field_by_field(play: Player) -> None:
    play("kit.lock.add", mechanism="dial", tag="R7", numbers=40)
    assert play.lines("kit.lock.change", tag="R7", faults="stiff", numbers=None) == [
        "- numbers = 40",
        '+ faults = "stiff"',
    ]
    assert play.refused("kit.lock.change", tag="R8", faults="x").code == "change.no-tag"
    problem = play.refused("kit.lock.change", tag="R7", code="1-2-3")
    assert (problem.code, problem.where.path) == ("kit.code-not-fixed", ("code",))


def test_a_lock_goes_with_what_names_it(play: Player) -> None:
    play("kit.lock.add", mechanism="key", tag="K8")
    play("kit.lock.add", mechanism="key", tag="K9")
    play("kit.key.add", opens=["K8", "K9"], copies=2, tag="Y9")
    play("kit.box.add", name="a chest", own_lock="K8", tag="B9")
    play("kit.lock.remove", tag="K8")
    data = play.data(KIT)
    assert "K8" not in data["locks"]
    assert data["keys"]["Y9"]["opens"] == ["K9"]
    assert data["boxes"]["B9"] == {"name": "a chest"}


def test_boxes_tools_and_keys_come_change_and_go(play: Player) -> None:
    box = play("kit.box.add", name="a tub", inside_mm=[200, 150, 80.5], hasp_holes=2)
    play("kit.box.change", tag=box, hasp_hole_mm=8)
    assert play.data(KIT)["boxes"][box]["hasp_hole_mm"] == 8
    tool = play("kit.tool.add", **{"is": "mirror"})
    play("kit.tool.change", tag=tool, batteries="none")
    assert play.data(KIT)["tools"][tool] == {"is": "mirror", "batteries": "none"}
    play("kit.lock.add", mechanism="key", tag="K9")
    key = play("kit.key.add", opens=["K9"])
    play("kit.key.change", tag=key, copies=3)
    for family, tag in (("box", box), ("tool", tool), ("key", key), ("lock", "K9")):
        play(f"kit.{family}.remove", tag=tag)
        assert f".{tag}]" not in play.text(KIT)


def test_makes_come_change_and_stay_while_locks_are_of_them(play: Player) -> None:
    make = play("kit.model.add", name="Four brass wheels", mechanism="number-wheels", wheels=4)
    assert make == "four-brass-wheels"
    play("kit.model.change", model=make, cheap=True)
    tag = play("kit.lock.add", model=make)
    assert tag[0] == "N"
    assert play.refused("kit.model.remove", model=make).code.startswith("kit.no-model")
    play("kit.lock.remove", tag=tag)
    play("kit.model.remove", model=make)
    assert play.refused("kit.model.change", model=make).code == "change.no-model"


def test_envelopes_are_counted(play: Player) -> None:
    play("kit.stand-ins", envelopes=7)
    assert play.data(KIT)["stand_ins"] == {"envelopes": 7}


def test_a_game_without_a_kit_gets_one_by_its_name(play: Player) -> None:
    (play.folder / KIT).unlink()
    assert play.refused("kit.stand-ins", envelopes=7).code == "change.no-kit"
    play("kit.describe", name="The blue crate")
    play("kit.stand-ins", envelopes=7)
    assert play.text(KIT) == (
        'format = 1\n\n[kit]\nid = "blue-crate"\nname = "The blue crate"\n\n'
        "[stand_ins]\nenvelopes = 7\n"
    )


def test_a_shelf_that_is_not_ones_own_is_cleared_but_for_its_name(play: Player) -> None:
    before = play.data(KIT)
    play("kit.clear")
    after = play.data(KIT)
    assert after["kit"] == before["kit"]
    assert not any(after.get(name) for name in ("locks", "boxes", "tools", "keys", "models"))
