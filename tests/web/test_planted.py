"""The planted mistake: found as the checks tell it, mended, and then a copy of the game."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio
from tests.web.access import faults_in_light_and_dark
from tests.web.serving import PAGE, client


def test_the_page_stands_before_the_game_is_made(studio: Studio) -> None:
    text = client(studio).get("/example", headers=PAGE).text
    assert "/example/found?mistake=word" in text
    assert "COG" not in text


@pytest.mark.parametrize(
    ("mistake", "says"), [("word", "position 1 has no C"), ("ring", "These wait for one another")]
)
def test_what_the_checks_say_and_that_it_goes_away(studio: Studio, mistake: str, says: str) -> None:
    ask = client(studio)
    found = ask.get("/example/found", params={"mistake": mistake}).text
    assert says in found
    assert 'class="mark"' in found
    mended = ask.get("/example/found", params={"mistake": mistake, "mended": True}).text
    assert says not in mended
    assert 'class="mark"' not in mended
    assert "Nothing is in the way now" in mended


def test_a_mistake_that_is_none_of_ours_is_refused(studio: Studio) -> None:
    assert client(studio).get("/example?mistake=other", headers=PAGE).status_code == 422


def test_from_the_mistake_to_a_copy(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(f"{address}/example")
    tab.get_by_role("link", name="Take the first word that is near").click()
    expect(tab.get_by_role("heading", name="Nothing is in the way now")).to_be_visible()
    tab.get_by_role("button", name="Make a copy to change").click()
    tab.wait_for_url("**/games/tide-mill-2/**")
    assert "tide-mill-2" in studio.names()


def test_nobody_is_kept_out(tab: Page, address: str) -> None:
    tab.goto(f"{address}/example?mistake=ring")
    expect(tab.locator(".mark").first).to_be_visible()
    assert faults_in_light_and_dark(tab) == []
