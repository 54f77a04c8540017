"""The shelf: what stands on it, what the game takes of it, and how it is changed."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio
from tests.web.serving import client, holding

KIT = "/games/tide-mill/kit"


@pytest.fixture
def asking(studio: Studio) -> TestClient:
    return client(studio)


def filed(studio: Studio) -> dict[str, Any]:
    return tomllib.loads((studio.games / "tide-mill" / "kit.toml").read_text(encoding="utf-8"))


def card(page: str, id: str) -> str:
    return page.partition(f'id="{id}"')[2].partition("</li>\n    <li ")[0]


def test_a_lock_shows_its_sticker_its_fault_and_what_it_closes(asking: TestClient) -> None:
    page = asking.get(KIT).text
    assert "the middle wheel is stiff" in card(page, "lock-N3")
    assert "closes the grain chest" in card(page, "lock-W1")
    assert "Position 2: ABEILNOTUY" in card(page, "lock-W1")


def test_boxes_are_drawn_to_one_scale(asking: TestClient) -> None:
    page = asking.get(KIT).text
    longest, half = card(page, "box-B2"), card(page, "box-S1")  # 360 and 160 mm
    assert 'width="150.0" height="31.2"' in longest
    assert 'width="66.7" height="20.8"' in half


def test_with_several_groups_each_says_what_it_gets(asking: TestClient) -> None:
    page = asking.get(f"{KIT}?groups=2").text
    assert "table 2: closes" in page


def test_what_the_shelf_lacks_is_named(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "kit.toml"
    text = file.read_text(encoding="utf-8").replace('"four-ways"', '"three-numbers"')
    file.write_text(text, encoding="utf-8")
    assert "Missing for this game: a lock for an oilskin pouch." in asking.get(KIT).text


def test_words_that_a_lock_can_show_are_listed(asking: TestClient) -> None:
    words = asking.get(f"{KIT}/words?tag=W1").text
    assert "BIT" in words
    assert "THE" not in words.split("word-list")[1]  # no H on its second wheel


@pytest.mark.parametrize("tag", ["N1", "Z9", "w1"])
def test_there_are_no_words_for_other_locks(asking: TestClient, tag: str) -> None:
    assert asking.get(f"{KIT}/words?tag={tag}").status_code in (404, 422)


# By hand.


def test_a_game_without_a_kit_begins_one(tab: Page, address: str, studio: Studio) -> None:
    (studio.games / "tide-mill" / "kit.toml").unlink()
    tab.goto(address + KIT)
    tab.get_by_label("What the shelf is called").fill("The red trolley")
    tab.get_by_role("button", name="Begin the kit").click()
    expect(tab.get_by_role("heading", name="The red trolley")).to_be_visible()
    expect(tab.get_by_text("No lock is written down yet.")).to_be_visible()
    tab.locator("#add-lock").click()
    tab.get_by_role("button", name="Put on the shelf").first.click()
    expect(tab.locator("#lock-N1")).to_be_visible()
    assert filed(studio)["locks"] == {"N1": {"mechanism": "number-wheels", "wheels": 3}}


def test_a_lock_of_letters_is_put_on_the_shelf(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(address + KIT)
    tab.locator("#add-lock").click()
    form = tab.locator("[data-asks='kit.lock.add']")
    form.get_by_label("What a hand turns").select_option("letter-wheels")
    form.get_by_role("textbox", name="What stands on the wheels").fill("ABC\nD E F\n")
    form.get_by_text("More about it").click()
    form.get_by_label("thick").fill("5")
    form.get_by_label("clear height").fill("22.5")
    form.get_by_role("button", name="Put on the shelf").press("Enter")
    expect(tab.locator("#lock-W3")).to_contain_text("Position 2: DEF")
    assert filed(studio)["locks"]["W3"] == {
        "mechanism": "letter-wheels",
        "faces": ["ABC", "DEF"],
        "shackle_mm": [5, 22.5],
    }


def test_a_make_chosen_before_the_script_is_there_counts_all_the_same(
    tab: Page, address: str
) -> None:
    held = holding(tab, "**/kit.js")
    tab.goto(address + KIT, wait_until="commit")
    tab.locator("#add-lock").click()
    tab.select_option("#new-lock-model", "three-numbers")
    expect(tab.locator("#new-lock-mechanism")).to_have_value("number-wheels")
    held[0].continue_()
    expect(tab.locator("#new-lock-mechanism")).to_have_value("")


def test_a_make_lacks_how_it_is_set_until_it_is_written_down_once_for_all_its_locks(
    tab: Page, address: str, studio: Studio
) -> None:
    file = studio.games / "tide-mill" / "kit.toml"
    lines = file.read_text("utf-8").splitlines(keepends=True)
    file.write_text("".join(one for one in lines if "press the button" not in one), "utf-8")
    tab.goto(address + KIT)
    tab.locator("#makes-head").click()
    make = tab.locator("#make-letters")
    expect(make).to_contain_text("W1 and W2")
    expect(make).to_contain_text("How it is set is not written down yet")
    make.get_by_text("Change").click()
    make.get_by_label("How it is set").fill("Press the button, turn, let go.")
    make.get_by_role("button", name="Keep").click()
    expect(make).not_to_contain_text("not written down yet")
    expect(tab.locator("#make-letters-change")).to_be_focused()
    assert filed(studio)["models"]["letters"]["set_by"] == "Press the button, turn, let go."
    assert "set_by" not in filed(studio)["locks"]["W1"]


def test_a_make_is_added_and_goes_again_while_no_lock_is_of_it(
    tab: Page, address: str, studio: Studio
) -> None:
    tab.goto(address + KIT)
    tab.locator("#makes-head").click()
    tab.locator("#add-make").click()
    form = tab.locator("[data-asks='kit.model.add']")
    form.get_by_label("What you call it").fill("Round dial")
    form.get_by_label("What a hand turns").select_option("dial")
    form.get_by_role("button", name="Write it down").click()
    made = tab.locator("#make-round-dial")
    expect(made).to_contain_text("no lock of this make")
    assert filed(studio)["models"]["round-dial"] == {"mechanism": "dial", "numbers": 40}
    made.get_by_text("Change").click()
    made.get_by_role("button", name="Remove this make").click()
    expect(made).to_have_count(0)
    expect(tab.locator("#make-letters").get_by_role("button", name="Remove")).to_have_count(0)


def test_a_missing_measure_is_told_at_its_field_and_what_was_typed_stays(
    tab: Page, address: str, studio: Studio
) -> None:
    before = filed(studio)
    tab.goto(address + KIT)
    tab.locator("#box-B1-change").click()
    form = tab.locator("#box-B1 form")
    form.get_by_label("long").fill("333")
    form.get_by_label("broad").fill("")
    form.get_by_role("button", name="Keep").click()
    expect(form.locator(".problem")).to_contain_text("One of these numbers is missing")
    expect(form.get_by_label("broad")).to_be_focused()
    expect(form.get_by_label("long")).to_have_value("333")
    assert filed(studio) == before
    form.get_by_label("broad").fill("222")
    form.get_by_role("button", name="Keep").click()
    expect(tab.locator("#box-B1")).to_contain_text("333 × 222")


def test_only_what_was_changed_of_a_lock_is_changed(
    tab: Page, address: str, studio: Studio
) -> None:
    tab.goto(address + KIT)
    before = filed(studio)
    tab.locator("#lock-N3-change").click()
    tab.locator("#lock-N3").get_by_label("Faults").fill("")
    tab.locator("#lock-N3").get_by_role("button", name="Keep").click()
    expect(tab.locator("#lock-N3 .fault")).to_have_count(0)
    del before["locks"]["N3"]["faults"]
    assert filed(studio) == before


def test_a_sticker_that_is_taken_is_refused_beside_the_form(tab: Page, address: str) -> None:
    tab.goto(address + KIT)
    tab.locator("#add-box").click()
    form = tab.locator("[data-asks='kit.box.add']")
    form.get_by_label("What it is").fill("a hat box")
    form.get_by_label("Sticker").fill("B1")
    form.get_by_role("button", name="Put on the shelf").click()
    expect(form.locator("> .problems")).to_be_visible()
    expect(form.get_by_label("What it is")).to_have_value("a hat box")


def test_what_is_wrong_stands_at_its_field_and_in_sight(tab: Page, address: str) -> None:
    tab.goto(address + KIT)
    tab.locator("#lock-W1-change").click()
    form = tab.locator("#lock-W1 form")
    form.get_by_label("Wheels", exact=True).fill("4")
    form.get_by_role("button", name="Keep").click()
    problem = form.locator("> .problems")
    expect(problem).to_contain_text("It says 4 wheels, but gives the faces of 3.")
    expect(problem).to_be_in_viewport(ratio=1)
    expect(form.get_by_role("textbox", name="What stands on the wheels")).to_be_focused()


def test_the_shelf_of_another_is_cleared_and_undo_brings_it_back(tab: Page, address: str) -> None:
    tab.goto(address + KIT)
    tab.get_by_text("Is this not your shelf?").click()
    tab.get_by_role("button", name="Take everything off").click()
    expect(tab.get_by_text("No lock is written down yet.")).to_be_visible()
    expect(tab.locator("#said")).to_have_text("Done: Take everything off the shelf")
    tab.get_by_role("button", name="Undo").click()
    expect(tab.locator("#lock-W1")).to_be_visible()
    expect(tab.locator("#said")).to_have_text("Taken back: Take everything off the shelf")
