"""The story as it is told, changed in place; the game's head, its goals and its questions."""

from __future__ import annotations

import tomllib

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio

STORY = "/games/tide-mill/story"


def filed(studio: Studio) -> str:
    return (studio.games / "tide-mill" / "game.toml").read_text(encoding="utf-8")


def test_names_stand_where_the_file_has_braces(asking: TestClient) -> None:
    page = asking.get(STORY).text
    assert '<span class="name">the miller&#39;s tin case</span>' in page
    assert "words: about 35 to 40 seconds" in page


@pytest.mark.parametrize(
    ("wishes", "told"),
    [
        ("?level=easier", "left out as things stand"),
        ("?level=harder&groups=2", "told to every table now"),
    ],
)
def test_a_paragraph_says_to_whom_it_is_told(asking: TestClient, wishes: str, told: str) -> None:
    assert told in asking.get(STORY + wishes).text


def test_a_game_that_tells_nothing_says_what_to_do(asking: TestClient, studio: Studio) -> None:
    head = filed(studio).partition("[story]")[0]
    rest = filed(studio).partition("# BOXES")[2]
    (studio.games / "tide-mill" / "game.toml").write_text(f"{head}\n# {rest}", encoding="utf-8")
    page = asking.get(STORY).text
    assert "Nothing is told yet." in page
    assert "No ending yet." in page


def test_markup_in_a_story_is_text(asking: TestClient, studio: Studio) -> None:
    file = studio.games / "tide-mill" / "game.toml"
    file.write_text(filed(studio).replace("The gate goes up", "<b>The</b> gate"), encoding="utf-8")
    assert "&lt;b&gt;The&lt;/b&gt; gate" in asking.get(STORY).text


def test_a_wrong_name_is_told_with_the_nearest(asking: TestClient) -> None:
    answer = asking.post(f"{STORY}/told", json={"text": "Open {chset} & {case}."})
    assert "Did you mean chest?" in answer.text
    assert "the miller&#39;s tin case" in answer.text


def test_a_text_that_is_too_long_is_refused(asking: TestClient) -> None:
    assert asking.post(f"{STORY}/told", json={"text": "x" * 4001}).status_code == 422


# By hand.


def test_a_paragraph_is_changed_in_place_and_taken_back(
    tab: Page, address: str, studio: Studio
) -> None:
    tab.goto(address + STORY)
    first = tab.locator("#part-opening .para").first
    first.get_by_text("Change").click()
    text = first.get_by_label("Paragraph")
    text.fill("At dawn the mill stands still. ")
    first.get_by_label("Put in the name of").select_option("chest")
    first.get_by_role("button", name="Put it in").click()
    expect(first.locator(".told-now")).to_contain_text("the grain chest")
    first.get_by_role("button", name="Keep").click()
    expect(first.locator(".says")).to_have_text("At dawn the mill stands still. the grain chest")
    assert '"At dawn the mill stands still. {chest}",' in filed(studio)
    tab.locator("#undo").click()
    expect(first.locator(".says")).to_contain_text("On the river mouth")


def test_a_wrong_name_keeps_what_was_typed(tab: Page, address: str) -> None:
    tab.goto(address + STORY)
    ending = tab.locator("#part-closing")
    ending.get_by_text("Add a paragraph to the ending").click()
    form = ending.locator(".adds form")
    form.get_by_label("Paragraph").fill("All cheer for {chset}.")
    form.get_by_role("button", name="Add").click()
    expect(form.locator("> .problems")).to_contain_text("Did you mean chest?")
    expect(form.get_by_label("Paragraph")).to_have_value("All cheer for {chset}.")


def test_what_is_typed_elsewhere_outlives_a_change(tab: Page, address: str) -> None:
    tab.goto(address + STORY)
    tab.locator("#opening-1-change").click()
    tab.locator("#opening-1-text").fill("Half a thought")
    tab.locator("#goals-add").click()
    tab.locator("#goal-new").fill("Measure a tide.")
    tab.locator("[data-do='goal.add'] button").click()
    expect(tab.locator(".goals > li")).to_have_count(4)
    expect(tab.locator("#opening-1-text")).to_be_visible()
    expect(tab.locator("#opening-1-text")).to_have_value("Half a thought")
    expect(tab.locator("#goal-new")).to_have_value("")


def test_paragraphs_change_places_by_keyboard(tab: Page, address: str) -> None:
    tab.goto(address + STORY)
    tab.locator("#closing-0-change").press("Enter")
    tab.locator("#part-closing .para").first.get_by_role("button", name="Move down").press("Enter")
    expect(tab.locator("#part-closing .para").nth(1)).to_contain_text("The gate goes up")
    expect(tab.locator("#closing-1-change")).to_be_focused()


def test_a_question_joins_its_goal(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(address + STORY)
    goal = tab.locator(".goals > li").nth(1)
    goal.get_by_text("Add a question").click()
    goal.locator(".adds").get_by_label("Question").fill("Who pulls the sea?")
    goal.locator(".adds").get_by_role("button", name="Add").click()
    expect(goal.locator(".asks .para")).to_have_count(2)
    asked = tomllib.loads(filed(studio))["story"]["debrief"]
    assert {"goal": "tides", "ask": "Who pulls the sea?"} in asked


def test_the_head_of_the_game_is_changed(tab: Page, address: str, studio: Studio) -> None:
    tab.goto(address + STORY)
    tab.locator("#about-change").click()
    tab.get_by_label("Made by").fill("One\nTwo\n")
    tab.locator("#ages-0").fill("8")
    tab.get_by_label("Hints for each table").select_option("3")
    tab.locator("[data-do='game.describe'] button").click()
    expect(tab.get_by_text("For ages 8 to 11.")).to_be_visible()
    for line in ('authors = ["One", "Two"]', "ages = [8, 11]", "hints = 3"):
        assert line in filed(studio)
