"""The first page: a lock is chosen, its code is judged while one types, and sheets stand there."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from boxwright.game.mechanisms.making import NAMES
from boxwright.paper.opened import opened
from boxwright.web.studio import Studio
from tests.web.access import faults_in_light_and_dark
from tests.web.serving import PAGE, client, studio_in

ROWS = "Cork floats.\tyes\nIron floats.\tno\nWax floats.\tperhaps\n"


@pytest.fixture
def empty(tmp_path: Path) -> Studio:
    """A studio of somebody who has no game yet."""
    return studio_in(tmp_path, example=None)


def piece(studio: Studio, name: str, **asked: object) -> str:
    answer = client(studio).post(f"/hand/{name}", json=asked)
    assert answer.status_code == 200, answer.text
    return answer.text


def test_the_page_asks_one_question_and_makes_nothing(empty: Studio) -> None:
    answer = client(empty).get("/", headers=PAGE)
    assert answer.status_code == 200
    assert "Which lock is in your hand?" in answer.text
    assert all(f'value="{name}"' in answer.text for name in NAMES)
    assert 'id="code"' not in answer.text


@pytest.mark.parametrize("name", NAMES)
def test_each_lock_has_a_code_at_once_that_it_can_show(empty: Studio, name: str) -> None:
    text = client(empty).get("/", params={"lock": name}, headers=PAGE).text
    assert 'class="good"' in text
    assert 'class="problem"' not in text.partition('id="sheets"')[0]


def test_the_wheel_that_lacks_the_letter_is_named(empty: Studio) -> None:
    text = piece(empty, "verdict", lock="letter-wheels", faces="BDFL AEIO GMNT", code="COG")
    assert "position 1 has no C" in text
    assert "DOG" in text


@pytest.mark.parametrize(
    ("lock", "code"),
    [("letter-wheels", "LAVA"), ("number-wheels", "4 7 2 1"), ("keypad", "90210")],
)
def test_a_lock_is_as_long_as_its_code_where_nobody_said(
    empty: Studio, lock: str, code: str
) -> None:
    assert 'class="good"' in piece(empty, "verdict", lock=lock, code=code)


def test_a_lock_whose_wheels_were_counted_takes_no_longer_code(empty: Studio) -> None:
    text = piece(empty, "verdict", lock="letter-wheels", wheels=5, code="LAVA")
    assert "the lock has 5 wheels" in text


def test_what_contradicts_itself_in_a_lock_is_told(empty: Studio) -> None:
    text = piece(empty, "verdict", lock="colour-wheels", faces="red red blue")
    assert 'class="problem"' in text


def test_a_weak_code_is_told_and_still_gets_its_sheets(empty: Studio) -> None:
    assert "weak code" in piece(empty, "verdict", lock="number-wheels", code="123")
    assert piece(empty, "sheets", lock="number-wheels", code="123").count("sheet-card") == 3


def test_rows_are_read_with_the_bad_one_in_its_place(empty: Studio) -> None:
    text = piece(empty, "lesson", lock="number-wheels", lesson="own", rows=ROWS)
    assert "These are 2 statements" in text
    assert "Line 3:" in text
    assert "Write yes or no" in text


def test_a_lesson_that_no_sheet_uses_offers_a_code_that_it_can_lead_to(empty: Studio) -> None:
    asked = {"lock": "number-wheels", "code": "907", "lesson": "plants"}
    text = piece(empty, "sheets", **asked)
    assert "None of these sheets is made from the lesson" in text
    code = text.partition('data-code="')[2].partition('"')[0]
    assert "Which one is right?" in piece(empty, "sheets", **asked | {"code": code})


def test_rows_that_are_too_few_are_told_with_what_helps(empty: Studio) -> None:
    text = piece(empty, "sheets", lock="number-wheels", code="427", lesson="own", rows=ROWS)
    assert "None of these sheets is made from the lesson" in text
    assert "Shade by the rule</strong>" in text
    assert "3" in text.partition("Shade by the rule</strong>")[2].partition("</p>")[0]


def test_where_no_puzzle_can_carry_a_code_it_says_so(empty: Studio) -> None:
    text = piece(empty, "sheets", lock="dial", code="12-33-5")
    assert "No sheet yet" in text
    assert "sheet-card" not in text


def test_text_of_the_users_is_never_markup(empty: Studio) -> None:
    rows = "<img src=x onerror=alert(1)>\tyes\nIron floats.\tno\n<b>bold</b>\tperhaps"
    text = piece(empty, "lesson", lock="key", lesson="own", rows=rows)
    text += client(empty).get("/", params={"lock": "key", "code": "<i>x</i>"}, headers=PAGE).text
    assert "<img src=x" not in text
    assert "<b>bold" not in text
    assert "<i>x" not in text


@pytest.mark.parametrize(
    "query",
    ["lock=sword", "lock=dial&marks=9", "lock=key&wheels=x", "turn=x:y:1", "other=1", "youngest=2"],
)
def test_an_address_that_no_page_of_ours_makes_is_refused(empty: Studio, query: str) -> None:
    assert client(empty).get(f"/?{query}", headers=PAGE).status_code == 422


def test_odd_ages_are_told_without_a_command_line(empty: Studio) -> None:
    text = piece(empty, "lesson", lock="dial", youngest=12, oldest=9)
    assert "Ages from 12 to 9" in text
    assert "--ages" not in text


def printed(studio: Studio, **asked: object) -> list[str]:
    """Return the texts of the pages that a sheet is printed on."""
    answer = client(studio).post("/hand/print", data={"asked": json.dumps(asked)})
    assert answer.headers["content-type"] == "application/pdf"
    with opened(answer.content) as document:
        pages = (document[at] for at in range(len(document)))
        return [page.get_textpage().get_text_range() for page in pages]


def test_a_sheet_is_printed_with_its_key(empty: Studio) -> None:
    sheets = piece(empty, "sheets", lock="number-wheels", code="538")
    kind = sheets.partition('data-kind="')[2].partition('"')[0]
    *parts, key = printed(
        empty, lock="number-wheels", code="538", sheet=kind, turn=[f"{kind}:harder:3"],
        paper="us-letter",
    )  # fmt: skip
    assert parts
    assert all("538" not in part for part in parts)
    assert "538" in key


def test_what_is_no_sheet_cannot_be_printed(empty: Studio) -> None:
    ask = client(empty)
    for asked, status in (("{}", 404), ("no json", 422), ('{"lock":"dial","sheet":"x"}', 404)):
        assert ask.post("/hand/print", data={"asked": asked}).status_code == status


# With a browser


def test_by_mouse_from_a_lock_to_a_sheet_and_back(tab: Page, address: str) -> None:
    tab.goto(address)
    tab.get_by_text("Number wheels").click()
    expect(tab.locator(".sheet-card")).to_have_count(3)
    tab.get_by_label("The code, such as 427").fill("999")
    expect(tab.locator("#verdict")).to_contain_text("it is the same all along")
    tab.get_by_label("The code, such as 427").fill("42")
    expect(tab.locator("#verdict .problem")).to_contain_text("this lock takes 3 symbols")
    tab.get_by_label("The code, such as 427").fill("531")
    expect(tab.locator(".sheet-card")).to_have_count(3)
    tab.get_by_role("button", name="see it large and print it").first.click()
    expect(tab.locator(".answer")).to_have_text("531")
    expect(tab.get_by_role("button", name="On A4")).to_be_in_viewport()
    assert "sheet=" in tab.url
    tab.go_back()
    expect(tab.locator("#large")).to_be_hidden()
    assert "code=531" in tab.url
    tab.go_back()
    expect(tab.get_by_text("Pick it, and you get")).to_be_visible()


def test_by_keyboard_and_what_was_typed_survives_a_reload(tab: Page, address: str) -> None:
    tab.goto(address)
    tab.locator("#lock-number-wheels").focus()
    tab.keyboard.press("ArrowRight")
    expect(tab.locator("#lock-letter-wheels")).to_be_focused()
    expect(tab.get_by_label("The word")).to_be_visible()
    tab.locator("#lesson-none").focus()
    tab.keyboard.press("ArrowDown")
    tab.locator("#rows").fill(ROWS)
    expect(tab.locator("#lesson")).to_contain_text("These are 2 statements")
    tab.get_by_label("The word").fill("plums")
    expect(tab.locator("#verdict")).to_contain_text("PLUMS")
    tab.wait_for_url("**code=plums**")
    tab.reload()
    expect(tab.locator("#rows")).to_have_value(ROWS)
    expect(tab.get_by_label("The word")).to_have_value("plums")
    expect(tab.locator("#lesson")).to_contain_text("Line 3:")


def test_a_sheet_that_is_none_of_the_three_is_not_opened(tab: Page, address: str) -> None:
    tab.goto(f"{address}/?lock=direction&sheet=pigpen")
    expect(tab.locator(".sheet-card")).not_to_have_count(0)
    expect(tab.locator("#large")).to_be_hidden()


def test_a_number_out_of_range_is_pointed_at_and_nothing_breaks(tab: Page, address: str) -> None:
    tab.goto(f"{address}/?lock=number-wheels&code=427")
    tab.get_by_text("This lock exactly").click()
    tab.get_by_label("How many wheels").fill("77")
    tab.keyboard.press("Tab")
    expect(tab.get_by_label("How many wheels")).to_have_attribute("aria-invalid", "true")
    expect(tab.locator("#verdict")).to_contain_text("427")
    expect(tab.locator(".sheet-card")).to_have_count(3)


def test_harder_and_another_throw_change_that_sheet_alone(tab: Page, address: str) -> None:
    tab.goto(f"{address}/?lock=number-wheels&code=427")
    cards = tab.locator(".sheet-card")
    expect(cards).to_have_count(3)
    pictures = tab.locator(".sheet-card img")
    before = [pictures.nth(at).get_attribute("src") for at in range(3)]
    cards.nth(1).get_by_role("button", name="Harder").press("Enter")
    expect(cards.nth(1)).to_have_attribute("data-level", "harder")
    expect(cards.nth(1).get_by_role("button", name="Harder")).to_be_focused()
    after = [pictures.nth(at).get_attribute("src") for at in range(3)]
    assert [one == other for one, other in zip(before, after, strict=True)] == [True, False, True]
    assert "harder" in tab.url


STATES = ("/", "/?lock=letter-wheels&lesson=own&code=zz#rows=one", "/?lock=number-wheels&code=427")


@pytest.mark.parametrize("state", STATES)
def test_nobody_is_kept_out(tab: Page, address: str, state: str) -> None:
    tab.goto(address + state)
    if "lock" in state:
        expect(tab.locator("#sheets")).to_have_attribute("aria-busy", "false")
    if "427" in state:
        tab.locator(".paper-button").first.click()
        expect(tab.locator(".answer")).to_be_visible()
    assert faults_in_light_and_dark(tab) == []
