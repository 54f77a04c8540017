"""The wall: a clock for the back row, lids without names, never an answer."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from boxwright.web.studio import Studio
from tests.web.access import faults_in_light_and_dark
from tests.web.playing import AFTER, HOUR, WALL, begun, in_play, printed, tap, taps
from tests.web.serving import client

LUMINANCE = """() => {
  const level = (value) => value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  const light = (text) => {
    const [r, g, b] = text.match(/[0-9.]+/g).map((one) => level(one / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ink = light(getComputedStyle(document.getElementById('left')).color);
  const paper = light(getComputedStyle(document.documentElement).backgroundColor);
  return (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
}"""


def test_before_play_the_story_waits_there(studio: Studio) -> None:
    page = client(printed(studio)).get(WALL).text
    assert "a mill that runs on the tide" in page
    assert 'data-show="story"' in page
    assert "data-session" not in page


def test_without_a_printed_set_it_tells_the_story_all_the_same(studio: Studio) -> None:
    assert "a mill that runs on the tide" in client(studio).get(WALL).text


def test_there_is_no_way_from_the_wall_to_an_answer(studio: Studio) -> None:
    asking, _ = in_play(studio)
    page = asking.get(WALL).text
    assert "<a " not in page
    for thing in ("eel-run", "flour-sacks", "Window", "biscuit tin"):
        assert thing not in page


def test_nobody_sees_whose_lid_is_up(studio: Studio) -> None:
    asking, session = in_play(studio)
    taps(asking, session, tap("lock.opened", group="1", lock="sluice"))
    one = asking.get(WALL).text
    taps(asking, session, tap("undone", event=_last(asking, session)))
    taps(asking, session, tap("lock.opened", group="2", lock="sluice"))
    other = asking.get(WALL).text
    assert "1 of 2 up" in one
    assert _shelf(one) == _shelf(other)


def _last(asking: object, session: str) -> str:
    page = asking.get(HOUR).text  # type: ignore[attr-defined]
    return re.search(r'id="back-([^"]+)"', page)[1]  # type: ignore[index]


def _shelf(page: str) -> str:
    return page.partition('id="lids"')[2].partition("</ul>")[0]


@pytest.fixture
def wall(tab: Page, address: str, studio: Studio) -> Page:
    """The wall while two tables play."""
    in_play(studio)
    tab.goto(address + WALL)
    return tab


def test_digits_are_a_quarter_of_the_height_and_strong_in_light_and_dark(wall: Page) -> None:
    wall.evaluate("document.fonts.ready")
    high = wall.evaluate(
        """() => {
          const pen = document.createElement('canvas').getContext('2d');
          const style = getComputedStyle(document.querySelector('.digits'));
          pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
          return pen.measureText('0').actualBoundingBoxAscent / innerHeight;
        }"""
    )
    assert high >= 0.25
    for scheme in ("light", "dark"):
        wall.emulate_media(color_scheme=scheme)
        assert wall.evaluate(LUMINANCE) >= 7


def test_lids_go_up_on_the_wall_as_they_are_tapped(
    wall: Page, address: str, studio: Studio
) -> None:
    hour = wall.context.new_page()
    hour.goto(address + HOUR)
    expect(wall.locator("#lids .lid.up")).to_have_count(0)
    hour.locator("#next-1-case").click()
    expect(wall.locator("#lids .lid.up")).to_have_count(1)


def test_the_end_time_alone_can_be_chosen_and_stays(wall: Page) -> None:
    wall.get_by_role("button", name="End time only").click()
    expect(wall.locator(".digits")).to_be_hidden()
    expect(wall.locator("#until")).to_have_text(re.compile(r"until \d"))
    wall.reload()
    expect(wall.locator(".digits")).to_be_hidden()


def test_a_wall_that_waits_begins_by_itself(tab: Page, address: str, studio: Studio) -> None:
    printed(studio)
    tab.goto(address + WALL)
    expect(tab.locator("[data-scene=story]")).to_be_visible()
    begun(client(studio))
    expect(tab.locator("body")).to_have_attribute("data-session", re.compile("s-"))


def test_nothing_stands_in_anybodys_way_on_the_wall(wall: Page) -> None:
    assert faults_in_light_and_dark(wall) == []


def test_the_wall_of_a_closed_hour_waits_for_the_next(studio: Studio) -> None:
    asking, session = in_play(studio)
    taps(asking, session, tap("session.closed"))
    assert asking.get(f"{WALL}/now").json() == {"session": None}
    assert asking.get(f"{AFTER}/{session}").status_code == 200
