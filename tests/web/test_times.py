"""The period from bell to bell, drawn to scale and held against what the game takes."""

from __future__ import annotations

from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio

TIMES = "/games/tide-mill/times"


def test_parts_are_drawn_to_scale(asking: TestClient) -> None:
    page = asking.get(TIMES).text
    play = page.split('data-part="play"')[1]
    assert f'width="{48 * 100 / 70}%"' in play
    assert ">48</text>" in play


def test_what_clues_and_story_take_is_told(asking: TestClient) -> None:
    plan = asking.get(f"{TIMES}/plan?level=harder").text
    assert 'data-aloud="0.5"' in plan
    assert "Most tables will take" in plan
    assert plan.count('scope="row"') == 10


def test_too_little_time_is_told_in_the_checks_own_words(
    asking: TestClient, studio: Studio
) -> None:
    file = studio.games / "tide-mill" / "game.toml"
    text = file.read_text(encoding="utf-8").replace("bell_to_bell = 70", "bell_to_bell = 40")
    file.write_text(text, encoding="utf-8")
    plan = asking.get(f"{TIMES}/plan").text
    assert "18 are left for play" in plan
    helps = asking.get(f"{TIMES}/helps").text
    assert "these would help most" in helps


def test_what_bars_the_reckoning_is_told(asking: TestClient) -> None:
    plan = asking.get(f"{TIMES}/plan?groups=9").text
    assert "once these are mended" in plan


def test_the_bar_follows_a_slider_before_anything_is_kept(
    tab: Page, address: str, studio: Studio
) -> None:
    tab.goto(address + TIMES)
    tab.get_by_role("slider", name="Debrief").press("ArrowRight")
    expect(tab.locator("#rest")).to_have_text("47")
    expect(tab.locator("text.minutes-debrief")).to_have_text("9")
    file = studio.games / "tide-mill" / "game.toml"
    assert "debrief = 8" in file.read_text(encoding="utf-8")
    tab.get_by_role("button", name="Keep these times").click()
    expect(tab.locator("#undo")).to_be_enabled()
    assert "debrief = 9" in file.read_text(encoding="utf-8")


def test_times_that_leave_nothing_are_refused_and_stay_typed(tab: Page, address: str) -> None:
    tab.goto(address + TIMES)
    tab.get_by_label("Story and rules").first.fill("60")
    expect(tab.locator("#no-play")).to_be_visible()
    tab.get_by_role("button", name="Keep these times").click()
    expect(tab.locator("#times > .problems")).to_be_visible()
    expect(tab.get_by_label("Story and rules").first).to_have_value("60")


def test_beside_the_game_the_plan_stands_in_a_line_and_follows_what_is_wished(
    asking: TestClient,
) -> None:
    lines = [asking.get(f"{TIMES}/short?level={one}").text for one in ("easier", "hardest")]
    assert all("Most tables will take" in line for line in lines)
    assert lines[0] != lines[1]
    assert 'data-from="/games/tide-mill/times/short' in asking.get("/games/tide-mill/boxes").text
