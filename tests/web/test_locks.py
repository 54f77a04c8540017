"""The lock book: what is on each lock, one lock's history, and the search for a lost code."""

from __future__ import annotations

import re
import shutil
from html import unescape
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.ledger.event import wall_text
from boxwright.ledger.lock_book import LockEvent, record
from boxwright.ledger.store import Ledger
from boxwright.web.studio import Studio
from tests.web.serving import PAGE, client, studio_in

SHELF = "/locks/blue-crate"


def show(asking: TestClient, path: str = "/locks") -> str:
    answer = asking.get(path, headers=PAGE)
    assert answer.status_code == 200, answer.text
    return unescape(answer.text)


def note(asking: TestClient, tag: str, kind: str, **more: str) -> Any:
    return asking.post(f"{SHELF}/{tag}/note", json={"type": kind} | more)


def card(text: str, tag: str) -> str:
    """Return one lock's card of the page of all locks."""
    return text.partition(f'{SHELF}/{tag}">')[2].partition("</li>\n    <li ")[0]


def tries(text: str) -> list[str]:
    return re.findall(r'class="try"><input type="checkbox" value="([^"]+)"', text)


# All locks.


def test_every_lock_of_a_kit_stands_there_also_one_that_nobody_noted(asking: TestClient) -> None:
    text = show(asking)
    assert "The blue crate in the store room" in text
    assert "Not written down yet" in card(text, "N1")
    assert "It rests at 000" in card(text, "N1")
    assert "Opens with a key" in card(text, "K1")


def test_a_lock_shows_its_code_and_for_which_game(asking: TestClient) -> None:
    assert note(asking, "N1", "lock.set", code="4 2 7", game="tide-mill").status_code == 200
    found = card(show(asking), "N1")
    assert "Opens with 427" in found
    assert "For: The Tide Mill." in found
    assert re.search(r">4</text>.*>2</text>.*>7</text>", found, re.DOTALL)


def test_the_way_back_to_the_game_that_led_here_stays_at_hand(asking: TestClient) -> None:
    back = '<a href="/games/tide-mill/set-up">Back to setting up The Tide Mill</a>'
    text = show(asking, "/locks?game=tide-mill")
    assert back in text
    assert f'href="{SHELF}/N1?game=tide-mill"' in text
    one = show(asking, f"{SHELF}/N1?game=tide-mill")
    assert back in one
    assert 'href="/locks?game=tide-mill">All locks' in one


@pytest.mark.parametrize("query", ["", "?game=no-such", "?game=..%2Fledger"])
def test_without_a_game_there_is_no_way_back_to_one(asking: TestClient, query: str) -> None:
    assert "Back to setting up" not in show(asking, f"/locks{query}")


def test_what_it_was_set_for_may_be_anything(asking: TestClient) -> None:
    note(asking, "N1", "lock.set", code="427", game="open day")
    assert "For: open day." in card(show(asking), "N1")


def test_a_kit_of_two_games_stands_there_once(asking: TestClient, studio: Studio) -> None:
    shutil.copytree(studio.games / "tide-mill", studio.games / "second")
    assert show(asking).count("The blue crate in the store room") == 1


def test_a_lock_whose_kit_is_gone_is_still_in_the_book(asking: TestClient, studio: Studio) -> None:
    with Ledger(studio.ledger) as ledger:
        event = LockEvent("lock-event-1", "old-box", "N9", "lock.set", wall_text(0), "427")
        record(ledger, event)
    text = show(asking)
    assert "old-box" in text
    assert "Opens with 427" in text
    asking.post("/locks/old-box/N9/note", json={"type": "lock.lost"})
    assert "nobody can say which codes it can show" in show(asking, "/locks/old-box/N9")
    refused = asking.post("/locks/old-box/N9/note", json={"type": "lock.set", "code": "1"})
    assert refused.json()["problems"][0]["code"] == "page-locks.no-kit"


def test_a_kit_that_cannot_be_read_is_told_and_hides_no_other(
    asking: TestClient, studio: Studio
) -> None:
    shutil.copytree(studio.games / "tide-mill", studio.games / "second")
    (studio.games / "second" / "kit.toml").write_text("[kit\n", "utf-8")
    text = show(asking)
    assert 'class="problem"' in text
    assert "The blue crate in the store room" in text


def test_a_studio_without_a_kit_says_where_to_begin(tmp_path: Any) -> None:
    text = show(client(studio_in(tmp_path, example=None)))
    assert "No game here has a kit yet" in text


# One lock.


def test_a_lock_tells_its_history_the_latest_first(asking: TestClient) -> None:
    note(asking, "N1", "lock.set", code="427", game="tide-mill")
    note(asking, "N1", "lock.checked")
    text = show(asking, f"{SHELF}/N1")
    assert text.index("Opened with its code") < text.index("Set to 427, for: The Tide Mill")


def test_a_lost_code_gets_the_list_that_begins_with_what_it_was_meant_to_be(
    asking: TestClient,
) -> None:
    for code in ("555", "427"):
        note(asking, "N1", "lock.set", code=code)
    assert note(asking, "N1", "lock.lost").json()["said"].startswith("Written down")
    assert "Code lost; it was meant to be 427" in card(show(asking), "N1")
    text = show(asking, f"{SHELF}/N1")
    assert tries(text)[:3] == ["427", "555", "000"]
    assert len(tries(text)) == 40
    assert len(tries(show(asking, f"{SHELF}/N1?tries=100"))) == 100


def test_a_code_that_was_found_ends_the_search(asking: TestClient) -> None:
    note(asking, "N1", "lock.set", code="427")
    note(asking, "N1", "lock.lost")
    assert note(asking, "N1", "lock.found", code="437").status_code == 200
    text = show(asking, f"{SHELF}/N1")
    assert "Opens with 437" in text
    assert tries(text) == []


def test_only_a_keypad_asks_for_its_battery(asking: TestClient) -> None:
    assert "It got a new battery" in show(asking, f"{SHELF}/P1")
    assert "It got a new battery" not in show(asking, f"{SHELF}/N1")
    note(asking, "P1", "lock.battery")
    assert "New battery:" in show(asking, f"{SHELF}/P1")


@pytest.mark.parametrize(
    ("tag", "sent", "status"),
    [
        ("N1", {"type": "lock.set", "code": "42"}, 422),
        ("N1", {"type": "lock.set", "code": " "}, 422),
        ("N1", {"type": "lock.set", "code": "9" * 200}, 422),
        ("N1", {"type": "lock.found"}, 422),
        ("N1", {"type": "lock.undone"}, 422),
        ("K1", {"type": "lock.set", "code": "427"}, 422),
        ("N9", {"type": "lock.lost"}, 404),
        ("n1", {"type": "lock.lost"}, 422),
    ],
)
def test_what_cannot_be_is_refused_and_not_written(
    asking: TestClient, tag: str, sent: dict[str, str], status: int
) -> None:
    assert asking.post(f"{SHELF}/{tag}/note", json=sent).status_code == status
    assert "Nothing was written down yet." in show(asking, f"{SHELF}/N1")


def test_there_is_no_page_for_a_lock_that_nobody_knows(asking: TestClient) -> None:
    assert asking.get(f"{SHELF}/N9", headers=PAGE).status_code == 404
    assert asking.get("/locks/no-such-kit/N1", headers=PAGE).status_code == 404


# By hand.


def test_a_search_by_hand_ends_with_the_code_that_was_ticked_last(
    tab: Page, address: str, asking: TestClient
) -> None:
    note(asking, "N1", "lock.set", code="427")
    tab.goto(f"{address}/locks")
    tab.get_by_role("link", name="N1 Lock with number wheels").click()
    tab.get_by_role("button", name="It does not open with this").click()
    tab.get_by_label("427", exact=True).check()
    tab.reload()
    expect(tab.get_by_label("427", exact=True)).to_be_checked()
    tab.get_by_label("437", exact=True).check()
    expect(tab.get_by_label("It opened with")).to_have_value("437")
    tab.get_by_role("button", name="Write it down").press("Enter")
    expect(tab.get_by_role("heading", name="Opens with 437")).to_be_visible()


def test_a_code_that_the_lock_cannot_show_stays_where_it_was_typed(tab: Page, address: str) -> None:
    tab.goto(f"{address}{SHELF}/N1")
    tab.get_by_label("Code", exact=True).fill("4x7")
    tab.get_by_label("Code", exact=True).press("Enter")
    expect(tab.get_by_role("alert")).to_contain_text("position 2 is x")
    expect(tab.get_by_label("Code", exact=True)).to_have_value("4x7")
    expect(tab.get_by_label("Code", exact=True)).to_be_focused()
