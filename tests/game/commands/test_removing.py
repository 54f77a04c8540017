"""What is taken away leaves no name behind, and takes no words of the teacher's along."""

from __future__ import annotations

import pytest

from tests.game.commands.conftest import Player


def without_story(play: Player) -> None:
    play("thing.set", id="mill-words", field="optional", value=True)
    text = play.text().replace(
        '  { when = "pouch", text = "Beside it lies {pouch}. Write {{x}} for x." },\n', ""
    )
    (play.folder / "game.toml").write_text(text.replace("after {brass-key}?", "after it?"))


def test_what_lay_in_a_box_lies_where_the_box_lay(play: Player) -> None:
    without_story(play)
    play("thing.move", id="pouch", to=["under-chair", "any low-shelf"])
    play("item.add", name="lens", place=["board", "pouch", "any low-shelf"])
    play("thing.remove", id="pouch")
    data = play.data()
    assert "pouch" not in data["boxes"]
    assert data["items"]["torch"]["place"] == ["under-chair", "any low-shelf"]
    assert data["items"]["lens"]["place"] == ["board", "under-chair", "any low-shelf"]
    by_torch = data["clues"]["sheaves"]["versions"]["by-torch"]
    assert by_torch["adds"] == ["torch"]
    assert "moves" not in by_torch


def test_a_box_takes_its_locks_along(play: Player) -> None:
    assert play.refused("thing.remove", id="safe").what.args["clues"] == ("workers",)
    play("thing.remove", id="safe", with_clue=True)
    data = play.data()
    assert "hatch" not in data["locks"]
    assert "workers" not in data["clues"]
    assert data["clues"]["mill-words"]["versions"]["blanks"]["place"] == "shelf"


def test_a_lock_goes_with_its_clue_only_where_that_is_asked(play: Player) -> None:
    problem = play.refused("thing.remove", id="count")
    assert problem.code == "change.has-clue"
    lines = problem.what.args["lines"]
    assert isinstance(lines, tuple)
    assert [play.text().splitlines()[line - 1] for line in lines if isinstance(line, int)] == [
        'gives = "count"'
    ]
    play("thing.remove", id="count", with_clue=True)
    data = play.data()
    assert "sheaves" not in data["clues"]
    assert data["arrangements"] == {"short": {"level": "easier"}, "torch": {"level": "harder"}}


def test_an_item_that_a_version_needs_is_needed_no_more(play: Player) -> None:
    play("thing.remove", id="torch")
    by_torch = play.data()["clues"]["sheaves"]["versions"]["by-torch"]
    assert "needs" not in by_torch
    assert by_torch["adds"] == ["pouch"]


def test_a_clue_goes_with_the_wishes_for_it(play: Player) -> None:
    gone = play.lines("thing.remove", id="sheaves")
    assert '- versions = { sheaves = "daylight" }' in gone
    assert all(line.startswith("-") for line in gone)
    assert "\n\n\n" not in play.text()


def test_a_clue_on_another_stands_alone_without_it(play: Player) -> None:
    play("version.change", clue="mill-words", version="fences", on="sheaves")
    play("thing.remove", id="sheaves")
    assert "on" not in play.data()["clues"]["mill-words"]["versions"]["fences"]


@pytest.mark.parametrize("id", ["trunk", "pouch", "brass-key"])
def test_what_is_told_of_in_the_teachers_words_stays(play: Player, id: str) -> None:
    problem = play.refused("thing.remove", id=id, with_clue=True)
    assert problem.code == "change.told-of"
    lines = problem.what.args["lines"]
    assert isinstance(lines, tuple)
    for line in lines:
        assert isinstance(line, int)
        assert id in play.text().splitlines()[line - 1]


def test_the_key_of_a_lock_cannot_go_without_it(play: Player) -> None:
    without_story(play)
    play("version.change", clue="mill-words", version="fences", hints=None)
    problem = play.refused("thing.remove", id="brass-key", with_clue=True)
    assert problem.code == "game.key-lock-alone"
    play("thing.remove", id="latch")
    play("thing.remove", id="brass-key", with_clue=True)
    assert "brass-key" not in play.text()


def test_the_last_of_its_sort_leaves_no_heading(play: Player) -> None:
    for id in ("sheaves", "mill-words", "find-key", "workers"):
        play("thing.remove", id=id)
    assert "clues" not in play.data()
    assert "[clues" not in play.text()
    play("clue.add", gives="count", kind="nonogram")
    assert play.text().index("[clues.count-clue]") < play.text().index("[arrangements.short]")
