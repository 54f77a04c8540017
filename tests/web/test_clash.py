"""Two windows on one game: neither overwrites the other silently, and nothing is lost."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from boxwright.web.studio import Studio
from tests.web.serving import client

GAME = "/games/tide-mill"
PAGE = f"{GAME}/boxes"


def text(studio: Studio) -> str:
    return (studio.games / "tide-mill" / "game.toml").read_text(encoding="utf-8")


@pytest.fixture
def two(browser: Browser, address: str) -> Iterator[tuple[Page, Page]]:
    """Two windows that show the same page of the same game."""
    context = browser.new_context()
    pages = context.new_page(), context.new_page()
    for page in pages:
        page.goto(f"{address}{PAGE}")
    yield pages
    context.close()


def describe(page: Page, **args: str) -> None:
    """Do in a window what a form of its page does."""
    page.evaluate(
        """async (args) => {
            const { perform } = await import("/static/studio.js");
            window.done = perform("game.describe", args);
        }""",
        args,
    )


def test_what_the_other_window_changed_is_shown_and_both_changes_stay(
    two: tuple[Page, Page], studio: Studio
) -> None:
    first, second = two
    describe(first, title="The Ebb Mill")
    first.get_by_text("The Ebb Mill").first.wait_for()
    describe(second, summary="The wheel stands still.")
    dialog = second.get_by_role("dialog")
    dialog.wait_for()
    assert dialog.locator("del").inner_text().endswith('title = "The Tide Mill"')
    assert dialog.locator("ins").inner_text().endswith('title = "The Ebb Mill"')
    assert "summary: The wheel stands still." in dialog.locator("#clash-mine").inner_text()
    assert "The wheel stands still." not in text(studio)
    second.get_by_role("button", name="Make my change too").click()
    dialog.wait_for(state="hidden")
    second.evaluate("window.done")
    assert 'title = "The Ebb Mill"' in text(studio)
    assert 'summary = "The wheel stands still."' in text(studio)


def test_ones_own_change_can_be_left_out(two: tuple[Page, Page], studio: Studio) -> None:
    first, second = two
    describe(first, title="The Ebb Mill")
    first.get_by_text("The Ebb Mill").first.wait_for()
    describe(second, title="The Flood Mill")
    second.get_by_role("button", name="Leave mine out").click()
    second.evaluate("window.done")
    assert 'title = "The Ebb Mill"' in text(studio)
    assert second.locator("body").get_attribute("data-tag") == first.locator("body").get_attribute(
        "data-tag"
    )


def test_a_window_that_shows_what_no_longer_is_says_so(
    two: tuple[Page, Page], studio: Studio
) -> None:
    first, second = two
    describe(first, title="The Ebb Mill")
    first.get_by_text("The Ebb Mill").first.wait_for()
    second.get_by_text("This game was changed somewhere else").first.wait_for()
    second.get_by_role("button", name="Show it as it is now").click()
    second.locator("#stale").wait_for(state="hidden")


def test_what_another_program_changed_is_shown_too(studio: Studio) -> None:
    asking = client(studio)
    tag = asking.get(f"{GAME}/now").json()["tag"]
    file = studio.games / "tide-mill" / "kit.toml"
    file.write_bytes(file.read_bytes() + b"# <b>mine</b>\n")
    shown = asking.get(f"{GAME}/since/{tag}").text
    assert "In the kit" in shown
    assert "# &lt;b&gt;mine&lt;/b&gt;" in shown
    assert asking.get(f"{GAME}/since/nowhere").status_code == 200


def test_a_change_for_another_state_is_refused_and_writes_nothing(studio: Studio) -> None:
    asking = client(studio)
    for headers in ({"If-Match": '"old"'}, {}):
        before = text(studio)
        answer = asking.post(f"{GAME}/do/game.describe", json={"title": "X"}, headers=headers)
        assert answer.status_code == (412 if headers else 422)
        assert text(studio) == before


def test_undo_and_redo_outlive_the_studio(studio: Studio) -> None:
    before = text(studio)
    step(studio, "do/game.describe", title="The Ebb Mill")
    new = text(studio)
    assert new != before
    for way, expected in (("undo", before), ("redo", new), ("undo", before)):
        step(Studio(studio.games, studio.ledger), way)
        assert text(studio) == expected


def step(studio: Studio, way: str, **args: str) -> None:
    """Take one step in a studio that has just been opened."""
    asking = client(studio)
    tag = asking.get(f"{GAME}/now").json()["tag"]
    answer = asking.post(f"{GAME}/{way}", json=args, headers={"If-Match": f'"{tag}"'})
    assert answer.status_code == 200, answer.text


def test_a_file_that_was_to_be_taken_in_is_named(two: tuple[Page, Page], address: str) -> None:
    first, second = two
    second.goto(f"{address}{GAME}/content")
    describe(first, title="The Ebb Mill")
    first.get_by_text("The Ebb Mill").first.wait_for()
    file = {"name": "ebb.csv", "mimeType": "text/csv", "buffer": b"term,meaning\nebb,going out\n"}
    second.locator("#table-file").set_input_files(file)  # type: ignore[arg-type]
    second.get_by_role("button", name="Take it in").first.click()
    expect(second.locator("#clash-mine")).to_contain_text("file: ebb.csv")
    second.get_by_role("button", name="Make my change too").click()
    second.get_by_role("heading", name="ebb.csv").wait_for()
