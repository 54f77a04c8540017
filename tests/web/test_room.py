"""The room on its plan: points to scale, moved by hand or by keys; places and their dangers."""

from __future__ import annotations

import tomllib
from typing import Any

from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio

ROOM = "/games/tide-mill/room"


def filed(studio: Studio) -> dict[str, Any]:
    return tomllib.loads((studio.games / "tide-mill" / "room.toml").read_text(encoding="utf-8"))


def change(studio: Studio, old: str, new: str) -> None:
    file = studio.games / "tide-mill" / "room.toml"
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), encoding="utf-8")


def test_a_place_stands_on_the_plan_to_scale(asking: TestClient) -> None:
    page = asking.get(ROOM).text
    point = page.partition('id="mark-shelf"')[2]  # 700 of 8600 mm along, 4200 of 6800 away
    assert point.startswith(' x="8.14%" y="38.24%"')


def test_what_lies_at_a_place_is_told(asking: TestClient) -> None:
    page = asking.get(ROOM).text
    assert "<li>the key safe</li>" in page.partition('id="place-shelf"')[2].partition("</ul>")[0]


def test_dangers_are_told_at_their_place(asking: TestClient, studio: Studio) -> None:
    change(studio, 'say = "SILL"', 'say = "SILL"\nnear = ["socket"]')
    change(studio, "height_mm = 1100", "height_mm = 2100")
    page = asking.get(ROOM).text
    sill = page.partition('id="place-sill"')[2].partition("</li>")[0]
    assert "is near a socket; nothing should be hidden there" in sill
    board = page.partition('id="place-board"')[2]
    assert "9-year-olds reach about 140 cm" in board


def test_a_room_without_a_plan_is_a_list(asking: TestClient, studio: Studio) -> None:
    change(studio, "plan_mm = [8600, 6800]\n", "")
    file = studio.games / "tide-mill" / "room.toml"
    lines = file.read_text(encoding="utf-8").splitlines()
    rest = [line for line in lines if not line.startswith("at_mm")]
    file.write_text("\n".join(rest), encoding="utf-8")
    page = asking.get(ROOM).text
    assert "There is no plan." in page
    assert 'class="mark' not in page


# By hand.


def test_a_room_is_begun_and_gets_its_first_place(tab: Page, address: str, studio: Studio) -> None:
    folder = studio.games / "tide-mill"
    (folder / "room.toml").unlink()
    game = (folder / "game.toml").read_text(encoding="utf-8")
    head, rest = game.split("[clues.find-key]")
    (folder / "game.toml").write_text(head + "[arr" + rest.split("[arr", 1)[1], encoding="utf-8")
    tab.goto(address + ROOM)
    tab.get_by_label("What the room is called").fill("The old gym")
    tab.get_by_label("along the door").fill("12000")
    tab.get_by_label("away from it").fill("9000")
    tab.get_by_role("button", name="Begin the room").click()
    expect(tab.get_by_role("heading", name="The old gym")).to_be_visible()
    assert filed(studio)["room"]["plan_mm"] == [12000, 9000]
    tab.locator("#add-place").click()
    form = tab.locator("[data-asks='place.add']")
    form.get_by_label("What it is").fill("behind the mat cart")
    form.get_by_label("Words for its sort").fill("low-shelf seat")
    form.get_by_label("a small thing").check()
    form.get_by_role("button", name="Add").click()
    expect(tab.locator(".places > li")).to_have_count(1)
    (place,) = filed(studio)["places"].values()
    assert place == {
        "name": "behind the mat cart",
        "holds": ["sheet", "small"],
        "tags": ["low-shelf", "seat"],
    }
    tab.get_by_role("button", name="Put it on the plan").click()
    expect(tab.locator(".mark")).to_be_focused()


def test_a_point_is_moved_by_the_arrow_keys(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(address + ROOM)
    point = tab.locator("#mark-shelf")
    point.press("ArrowRight")
    point.press("Shift+ArrowDown")
    assert filed(studio)["places"]["shelf"]["at_mm"] == [700, 4200]
    point.press("Enter")
    expect(tab.locator("#undo")).to_be_enabled()
    assert filed(studio)["places"]["shelf"]["at_mm"] == [800, 3700]
    expect(tab.locator("#mark-shelf")).to_be_focused()
    tab.locator("#mark-shelf").press("ArrowLeft")
    tab.locator("#mark-shelf").press("Escape")
    tab.locator("#undo").focus()
    assert filed(studio)["places"]["shelf"]["at_mm"] == [800, 3700]


def test_a_point_is_dragged_and_stays_on_the_plan(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(address + ROOM)
    point = tab.locator("#mark-sill circle").bounding_box()
    area = tab.locator("#plan").bounding_box()
    assert point is not None
    assert area is not None
    tab.mouse.move(point["x"] + 14, point["y"] + 14)
    tab.mouse.down()
    tab.mouse.move(area["x"] + area["width"] * 0.75, area["y"] + area["height"] / 2, steps=4)
    tab.mouse.move(area["x"] + area["width"] + 50, area["y"] + area["height"] / 2, steps=2)
    tab.mouse.up()
    expect(tab.locator("#undo")).to_be_enabled()
    x, y = filed(studio)["places"]["sill"]["at_mm"]
    assert x == 8600
    assert abs(y - 3400) < 120


def test_the_room_keeps_what_was_not_touched(tab: Page, address: str, studio: Studio) -> None:
    before = filed(studio)
    tab.goto(address + ROOM)
    tab.get_by_label("a scanner for bar codes").check()
    tab.get_by_label("Other things it has").fill("piano, garden")
    tab.locator("#keep-room").click()
    expect(tab.get_by_label("Other things it has")).to_have_value("piano garden")
    found = filed(studio)
    assert found["room"].pop("facilities") == ["board", "projector", "scanner", "piano", "garden"]
    del before["room"]["facilities"]
    assert found == before
