"""The hour: begun, noted, taken back; the same on every page and after every reload."""

from __future__ import annotations

import re
from contextlib import ExitStack

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Page, expect

from boxwright.ledger.store import Ledger
from boxwright.live.helping import Help, Helper
from boxwright.web.studio import Studio
from tests.web.access import faults_in_light_and_dark
from tests.web.playing import GAME, HOUR, NAMES, begun, in_play, printed, tap, taps
from tests.web.serving import client, holding


@pytest.fixture
def playing(studio: Studio) -> tuple[TestClient, str]:
    return in_play(studio)


# Before


def test_without_a_printed_set_the_way_leads_to_the_print_outs(studio: Studio) -> None:
    page = client(studio).get(HOUR).text
    assert "Nothing is printed yet." in page
    assert f'href="{GAME}/print-outs"' in page


def test_tables_minutes_and_signs_are_there_to_begin_with(studio: Studio) -> None:
    page = client(printed(studio)).get(HOUR).text
    assert 'value="Table 1"' in page
    assert 'value="Table 2"' in page
    assert re.search(r'name="minutes"[^>]* value="48"', page)


def test_a_set_of_a_game_that_was_changed_can_be_played_as_printed(studio: Studio) -> None:
    printed(studio)
    file = studio.games / "tide-mill" / "game.toml"
    text = file.read_text(encoding="utf-8").replace("debrief = 8", "debrief = 9")
    file.write_text(text, encoding="utf-8")
    asking = client(studio)
    assert "was changed after it was printed" in asking.get(HOUR).text
    assert begun(asking)


def test_beginning_twice_begins_once(playing: tuple[TestClient, str], studio: Studio) -> None:
    asking, session = playing
    assert begun(asking) == session
    assert asking.get(f"{GAME}/after").text.count('class="card"') == 1


def test_a_session_keeps_what_its_tables_were_foretold(
    playing: tuple[TestClient, str], studio: Studio
) -> None:
    with Ledger(studio.ledger) as ledger:
        data = ledger.events(playing[1])[0].data
    edition = data["editions"]["1"]
    finish = data["forecast"][edition]["finish_s"]
    assert 0 < finish["p10"] < finish["p50"] < finish["p90"]
    assert "flour-sacks" in data["forecast"][edition]["clues"]


@pytest.mark.parametrize(
    "names", [{}, {"1": " "}, {"1": "A", "2": "a"}, {"7": "A"}, {"1": "x" * 41}, {"1": "a\nb"}]
)
def test_tables_that_cannot_play_are_refused(studio: Studio, names: dict[str, str]) -> None:
    asking = client(printed(studio))
    answer = asking.post(f"{HOUR}/begin", json={"names": names, "minutes": 40})
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["remedy"]
    assert asking.get(f"{GAME}/wall/now").json() == {"session": None}


def test_what_was_ticked_while_setting_up_is_not_taken_back_in_the_hour(studio: Studio) -> None:
    asking = client(printed(studio))
    of = re.search(r'data-of="([^"]+)"', asking.get(f"{GAME}/set-up").text)
    assert of
    one = tap("step.ticked", step="set:sluice:1")
    query = {"list": "set-up", "of": of[1]}
    answer = asking.post(f"{GAME}/set-up/taps", params=query, json={"taps": [one]})
    assert answer.json()["answers"][0]["now"]["ticked"] == ["set:sluice:1"]
    begun(asking)
    page = asking.get(HOUR).text
    assert "set:sluice" not in page
    assert page.count('id="back-') == 2  # the minutes, and the clock


def test_a_table_without_a_name_does_not_play(studio: Studio) -> None:
    asking = client(printed(studio))
    begun(asking, names={"1": "Window", "2": ""})
    page = asking.get(HOUR).text
    assert "Window" in page
    assert 'id="tile-2"' not in page


# A table close by


def test_a_table_shows_what_is_in_hand_with_answer_and_hint(
    playing: tuple[TestClient, str],
) -> None:
    asking, session = playing
    page = asking.get(f"{HOUR}/{session}/table/1").text
    assert 'id="answer-1-flour-sacks" hidden' in page
    assert "Hint 1, to read aloud:" in page
    assert 'id="opened-1-flour-sacks"' in page


def test_given_hints_stand_and_the_next_is_offered(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    taps(asking, session, tap("hint.given", group="1", clue="flour-sacks", line=1))
    page = asking.get(f"{HOUR}/{session}/table/1").text
    assert "Hint 1, given:" in page
    assert '"line": 2' in page.replace("&#34;", '"')


def answer_of(asking: TestClient, session: str, clue: str) -> str:
    page = asking.get(f"{HOUR}/{session}/table/1").text
    return re.search(rf'id="answer-1-{clue}" hidden><b>([^<]*)</b>', page)[1]  # type: ignore[index]


def test_a_right_answer_and_a_wrong_one_are_told_apart(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    address = f"{HOUR}/{session}/table/1/flour-sacks/named"
    code = answer_of(asking, session, "flour-sacks")
    right = asking.post(address, json={"text": code}).json()
    assert (right["right"], right["lock"]) == (True, "sluice")
    wrong = asking.post(address, json={"text": code[::-1][:2] + "9"}).json()
    assert wrong["right"] is False
    assert "Not it" in wrong["html"]


def test_a_usual_mistake_is_named_with_what_it_means(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    page = asking.get(f"{HOUR}/{session}/table/1").text
    wrong, means = re.search(
        r'<dl class="mistakes"><dt>([^<]*)</dt><dd>([^<]*)</dd>', page
    ).groups()  # type: ignore[union-attr]
    address = f"{HOUR}/{session}/table/1/flour-sacks/named"
    found = asking.post(address, json={"text": wrong}).json()
    assert "a usual mistake" in found["html"]
    assert means in found["html"]


def test_what_the_lock_cannot_show_is_told_in_place(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    address = f"{HOUR}/{session}/table/1/flour-sacks/named"
    answer = asking.post(address, json={"text": "12"})
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["path"] == ["text"]


def test_sheets_come_as_pictures_and_to_be_printed_again(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    sheet = f"{HOUR}/{session}/table/1/flour-sacks"
    assert asking.get(f"{sheet}/1.png").content.startswith(b"\x89PNG")
    assert asking.get(f"{sheet}/sheet.pdf").content.startswith(b"%PDF")
    assert asking.get(f"{sheet}/9.png").status_code == 404


@pytest.mark.parametrize(
    "path", ["table/7", "table/1/none/1.png", "table/x", "table/7/eel-run/1.png"]
)
def test_what_there_is_not_is_told(playing: tuple[TestClient, str], path: str) -> None:
    asking, session = playing
    assert asking.get(f"{HOUR}/{session}/{path}").status_code in (404, 422)


def test_a_fault_in_the_game_leaves_the_hour_in_reach(
    playing: tuple[TestClient, str], studio: Studio
) -> None:
    asking, session = playing
    (studio.games / "tide-mill" / "game.toml").write_text("format = 1\n[", encoding="utf-8")
    assert f'data-session="{session}"' in asking.get(HOUR).text
    assert taps(asking, session, tap("lock.opened", group="1", lock="sluice"))[0]["seq"]
    assert asking.get(f"{HOUR}/{session}/table/1").status_code == 422


def test_no_event_holds_a_code(playing: tuple[TestClient, str], studio: Studio) -> None:
    asking, session = playing
    code = answer_of(asking, session, "flour-sacks")
    asking.post(f"{HOUR}/{session}/table/1/flour-sacks/named", json={"text": code})
    taps(asking, session, tap("code.tried", group="1", lock="sluice", right=True))
    csv = asking.get(f"{GAME}/after/{session}/report.csv").text
    assert "right code" in csv
    assert code not in csv.replace("-", "")


# In the browser


@pytest.fixture
def hour(tab: Page, address: str, studio: Studio) -> Page:
    """The hour's page, before anybody plays."""
    printed(studio)
    tab.goto(address + HOUR)
    return tab


def start(page: Page) -> None:
    for group, name in NAMES.items():
        page.get_by_label(f"Table {group}").fill(name)
    page.get_by_role("button", name="Start the clock").click()
    expect(page.locator("#left")).to_have_text(re.compile("min left"))


def test_one_tap_notes_a_box_and_one_takes_it_back(hour: Page) -> None:
    start(hour)
    window = hour.locator("#tile-1")
    window.get_by_role("button", name="They opened the miller's tin case").click()
    expect(window).to_contain_text("1 of 6 lids are up.")
    undo = hour.get_by_role("button", name="Take back: Window opened the lock sluice")
    undo.focus()
    hour.keyboard.press("Enter")
    expect(window).to_contain_text("0 of 6 lids are up.")
    hour.get_by_role("button", name="No, it was right").click()
    expect(window).to_contain_text("1 of 6 lids are up.")


def test_the_clock_is_held_and_goes_on_by_keyboard(hour: Page) -> None:
    start(hour)
    hour.get_by_role("button", name="Hold").focus()
    hour.keyboard.press("Enter")
    expect(hour.get_by_role("button", name="Go on")).to_be_focused()
    expect(hour.locator("#status")).to_have_text("The clock waits.")
    hour.keyboard.press("Control+z")
    expect(hour.locator("#status")).to_have_text("to play")


def test_pages_are_in_step_and_a_reload_keeps_the_state(hour: Page, address: str) -> None:
    start(hour)
    other = hour.context.new_page()
    other.goto(address + HOUR)
    hour.locator("#next-1-case").click()
    expect(other.locator("#tile-1")).to_contain_text("1 of 6 lids are up.")
    other.reload()
    expect(other.locator("#tile-1")).to_contain_text("1 of 6 lids are up.")
    expect(other.locator("#tile-2")).to_contain_text("0 of 6 lids are up.")


def test_eight_pages_of_one_browser_are_all_live(hour: Page, address: str) -> None:
    start(hour)
    pages = [hour.context.new_page() for _ in range(7)]
    for page in pages:
        page.goto(address + HOUR)
        expect(page.locator("#line")).to_be_hidden()
    hour.locator("#next-2-case").click()
    for page in pages:
        expect(page.locator("#tile-2")).to_contain_text("1 of 6 lids are up.")


def test_an_answer_shows_only_while_it_is_held(hour: Page) -> None:
    start(hour)
    hour.locator("#look-1").click()
    answer = hour.locator("#answer-1-flour-sacks")
    expect(answer).to_be_hidden()
    hour.locator("[data-hold=answer-1-flour-sacks]").focus()
    hour.keyboard.down("Space")
    expect(answer).to_be_visible()
    hour.keyboard.up("Space")
    expect(answer).to_be_hidden()


def test_a_wrong_answer_is_named_and_noted_without_it(hour: Page) -> None:
    start(hour)
    hour.locator("#look-1").click()
    hour.locator("#try-1-flour-sacks").fill("111")
    hour.keyboard.press("Enter")
    expect(hour.locator("#named-1-flour-sacks")).to_contain_text("Not it")
    expect(hour.locator("#undo-line")).to_contain_text("Window tried a wrong code")
    expect(hour.locator("#try-1-flour-sacks")).to_have_value("111")
    expect(hour.locator("#undo-line")).not_to_contain_text("111")


def test_what_a_table_works_on_is_noted_once_and_on_every_device(hour: Page, address: str) -> None:
    start(hour)
    other = hour.context.new_page()
    other.goto(address + HOUR)
    for page in (hour, other):
        page.locator("#look-1").click()
        expect(page.locator("#taken-1-flour-sacks")).to_be_visible()
    hour.locator("#taken-1-flour-sacks").click()
    for page in (hour, other):
        expect(page.locator("#taken-1-flour-sacks")).to_have_count(0)


@pytest.mark.parametrize(("brought", "told"), [("111", "Not it"), ("12", "takes 3 symbols")])
def test_an_answer_is_named_though_the_table_is_put_anew_meanwhile(
    hour: Page, brought: str, told: str
) -> None:
    start(hour)
    hour.locator("#look-1").click()
    hour.locator("#try-1-flour-sacks").fill(brought)
    held = holding(hour, "**/named")
    hour.keyboard.press("Enter")
    hour.locator("#taken-1-flour-sacks").click()
    expect(hour.locator("#taken-1-flour-sacks")).to_have_count(0)
    held[0].continue_()
    form = hour.locator("form", has=hour.locator("#try-1-flour-sacks"))
    expect(form).to_contain_text(told)
    hour.locator("#hint-1-flour-sacks").click()
    expect(hour.locator("#at-table")).to_contain_text("Hint 1, given")
    expect(form).to_contain_text(told)
    expect(hour.locator("#try-1-flour-sacks")).to_have_value(brought)


def test_an_answer_of_one_table_is_not_told_at_another(hour: Page) -> None:
    start(hour)
    hour.locator("#look-1").click()
    hour.locator("#try-1-flour-sacks").fill("111")
    hour.keyboard.press("Enter")
    expect(hour.locator("#named-1-flour-sacks")).to_contain_text("Not it")
    hour.locator("#look-2").click()
    expect(hour.locator("#named-2-flour-sacks")).to_be_empty()
    hour.locator("#look-1").click()
    expect(hour.locator("#named-1-flour-sacks")).to_be_empty()


def test_a_note_that_waits_does_not_wipe_the_next_one(hour: Page) -> None:
    start(hour)
    hour.locator(".for-all summary").click()
    held = holding(hour, "**/taps/**")
    hour.locator("#note-").fill("Too loud at first.")
    hour.get_by_role("button", name="Keep the note").click()
    expect(hour.locator("#note-")).to_have_value("")
    hour.locator("#note-").fill("Then it was")
    with hour.expect_response("**/taps/**"):
        held[0].continue_()
    expect(hour.locator("#undo-line")).to_contain_text("Too loud at first.")
    expect(hour.locator("#note-")).to_have_value("Then it was")


def test_taps_wait_in_the_browser_until_the_studio_is_back(hour: Page) -> None:
    start(hour)
    hour.context.route("**/taps/**", lambda route: route.abort())
    hour.locator("#next-1-case").click()
    expect(hour.locator("#unsent")).to_have_text("One tap is not sent yet.")
    expect(hour.locator("#tile-1")).to_contain_text("0 of 6 lids are up.")
    hour.context.unroute("**/taps/**")
    hour.reload()
    expect(hour.locator("#tile-1")).to_contain_text("1 of 6 lids are up.")
    expect(hour.locator("#undo-line li")).to_have_count(2)


def test_tables_are_laid_out_by_keys_and_stay_there(hour: Page) -> None:
    start(hour)
    hour.get_by_role("button", name="Move the tables").click()
    hour.locator("#tile-2").focus()
    hour.keyboard.press("ArrowDown")
    hour.reload()
    expect(hour.locator("#tile-2")).to_have_css("grid-row-start", "2")
    expect(hour.locator("#tile-1")).to_have_css("grid-row-start", "1")


def test_a_mishap_is_noted_with_what_helps_and_put_right(hour: Page) -> None:
    start(hour)
    hour.locator(".for-all summary").click()
    hour.locator("#what-").select_option("torn")
    hour.get_by_role("button", name="Note it, and see what helps").click()
    expect(hour.locator("#mishaps")).to_contain_text("Print the sheet again")
    hour.get_by_role("button", name="is put right").click()
    expect(hour.locator("#mishaps .mishap")).to_have_count(0)


def test_closing_leads_to_what_happened(hour: Page) -> None:
    start(hour)
    hour.get_by_role("button", name="End play").click()
    hour.get_by_role("button", name="Close this hour").click()
    expect(hour.get_by_role("heading", level=1)).to_contain_text("Played")


@pytest.fixture
def looked_at(hour: Page) -> Page:
    start(hour)
    hour.locator("#look-1").click()
    expect(hour.locator("#at-table-in article").first).to_be_visible()
    return hour


def test_nothing_stands_in_anybodys_way(looked_at: Page) -> None:
    assert faults_in_light_and_dark(looked_at) == []


def test_on_a_phone_the_table_comes_over_the_room_and_goes_by_escape(
    browser: Browser, address: str, studio: Studio
) -> None:
    in_play(studio)
    with ExitStack() as stack:
        context = browser.new_context(viewport={"width": 390, "height": 844})
        stack.callback(context.close)
        page = context.new_page()
        page.goto(address + HOUR)
        page.locator("#look-1").click()
        expect(page.locator("#at-table article").first).to_be_visible()
        page.keyboard.press("Escape")
        expect(page.locator("#at-table")).to_be_hidden()
        expect(page.locator("#look-1")).to_be_focused()
        assert page.evaluate("document.documentElement.scrollWidth") == 390


# What would help


@pytest.mark.parametrize(
    ("found", "said"),
    [
        (Help("none"), "No table needs a hint just now."),
        (Help("late", "2", "Door"), "Door is far behind"),
        (Help("hint", "1", "Window", "eel-run"), "A hint would help Window most just now, for"),
    ],
)
def test_what_would_help_is_told_in_words_without_numbers(
    playing: tuple[TestClient, str], monkeypatch: pytest.MonkeyPatch, found: Help, said: str
) -> None:
    asking, session = playing
    monkeypatch.setattr(Helper, "help", lambda *_: found)
    told = asking.get(f"{HOUR}/{session}/help").text
    assert said in told
    assert not re.search(r"[0-9%]", re.sub(r"<[^>]*>", "", told))


def test_nothing_is_advised_while_the_game_is_held(playing: tuple[TestClient, str]) -> None:
    asking, session = playing
    assert "No table needs a hint just now." in asking.get(f"{HOUR}/{session}/help").text
    taps(asking, session, tap("clock.held", why="fire drill"))
    assert asking.get(f"{HOUR}/{session}/help").text.strip() == ""
