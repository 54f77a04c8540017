"""The room and its places change; a place that is needed stays."""

from __future__ import annotations

from tests.game.commands.conftest import Player

ROOM = "room.toml"


def test_the_room_changes_line_by_line(play: Player) -> None:
    play("room.describe", name="The hall", facilities=["board"], plan_mm=[12000, 8000.5], north=45)
    room = play.data(ROOM)["room"]
    assert (room["name"], room["facilities"], room["plan_mm"], room["north"]) == (
        "The hall", ["board"], [12000, 8000.5], 45,
    )  # fmt: skip


def test_a_place_comes_behind_the_last_changes_and_moves(play: Player) -> None:
    play("room.describe", plan_mm=[12000, 8000])
    place = play("place.add", name="Behind the map", say="MAP", holds=["sheet"])
    assert place == "behind-the-map"
    assert play.text(ROOM).rstrip().endswith('say = "MAP"\nholds = ["sheet"]')
    play("place.move", place=place, at_mm=[100.0, 200])
    assert play.data(ROOM)["places"][place]["at_mm"] == [100, 200]
    assert play.lines("place.change", place=place, say=None) == ['- say = "MAP"']
    assert play.refused("place.move", place=place, at_mm=[90000, 0]).code == "room.off-plan"
    assert play.refused("place.change", place="none").code == "change.no-place"


def test_a_place_that_a_thing_needs_stays(play: Player) -> None:
    problem = play.refused("place.remove", place="shelf")
    assert problem.code == "change.place-used"
    lines = problem.what.args["lines"]
    assert isinstance(lines, tuple)
    assert [play.text().splitlines()[line - 1] for line in lines if isinstance(line, int)] == [
        'place = "shelf"'
    ]


def test_a_place_that_is_one_of_several_wishes_can_go(play: Player) -> None:
    play("place.remove", place="under-chair")
    assert "under-chair" not in play.data(ROOM)["places"]
    assert "under-chair" in play.text()


def test_a_game_without_a_room_gets_one_by_its_name(play: Player) -> None:
    text = play.text().replace('place = "shelf"', 'place = "table"')
    text = text.replace('parts = { key = "window-sill" }\n', "")
    (play.folder / "game.toml").write_text(text)
    (play.folder / ROOM).unlink()
    assert play.refused("place.add", name="a shelf").code == "change.no-room"
    assert play.refused("room.describe", setting="hall").code == "change.no-room"
    play("room.describe", name="Room 7", setting="hall")
    assert play.data(ROOM)["room"] == {"id": "room-7", "name": "Room 7", "setting": "hall"}
