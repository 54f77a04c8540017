"""Setting up with a tablet in one hand: the card's steps, their ticks, and what those tell."""

from __future__ import annotations

import re
import shutil
from html import unescape
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.build.current import current_editions
from boxwright.choose.gear import Gear
from boxwright.choose.setting_up import reset, set_up
from boxwright.game.folder import Folder, read_game
from boxwright.ledger.lock_book import LockEvent, read, record
from boxwright.ledger.store import Ledger
from boxwright.live.clock import SystemClock
from boxwright.live.desk import Desk
from boxwright.live.drafts import Draft
from boxwright.paper.frame import Look
from boxwright.paper.outs import lines
from boxwright.paper.outs.printing import Printing
from boxwright.web.studio import Studio
from tests.web.playing import printed
from tests.web.serving import PAGE, client, served

HERE = "/games/tide-mill/set-up"
NUMBERS = count(1)
SET, TEST = "set:sluice:1", "test:sluice:1"


@pytest.fixture
def studio(studio: Studio) -> Studio:
    """A studio with a printed set for two groups."""
    return printed(studio)


def gear_of(studio: Studio) -> Gear:
    folder = read_game(studio.games / "tide-mill")
    assert isinstance(folder, Folder)
    [edition] = current_editions(studio.games / "tide-mill")
    return Gear(edition, folder)


def kit_of(gear: Gear) -> str:
    assert gear.folder.kit is not None
    return gear.folder.kit.kit.id


def page(asking: TestClient, query: str = "") -> str:
    answer = asking.get(f"{HERE}{query}", headers=PAGE)
    assert answer.status_code == 200, answer.text
    return answer.text


def of(text: str) -> str:
    found = re.search(r'data-of="([^"]+)"', text)
    assert found
    return found[1]


def tap(
    asking: TestClient, step: str, *, done: bool = True, name: str = "set-up", **more: Any
) -> dict[str, Any]:
    """Send one tap of a tablet, and return its answer."""
    one = {
        "type": "step.ticked" if done else "undone",
        "data": {"step": step},
        "id": more.pop("id", f"tap-{next(NUMBERS):06}"),
        "device": "tablet-abc",
    }
    query = {"list": name, "of": more.pop("of", None) or of(page(asking))}
    answer = asking.post(f"{HERE}/taps", params=query, json={"taps": [one | more]})
    assert answer.status_code == 200, answer.text
    [found] = answer.json()["answers"]
    assert found["id"] == one["id"]
    return dict(found)


def play(studio: Studio, *kinds: str) -> None:
    """Let the clock of the session at hand run, and end."""
    with Ledger(studio.ledger) as ledger:
        desk = Desk(ledger, SystemClock())
        session = desk.last_unfinished("tide-mill")
        assert session is not None
        for kind in kinds:
            desk.take(session, Draft(kind, {}, f"play-{next(NUMBERS):06}", "d-1", "teacher"))


# The list.


def told(text: str) -> list[str]:
    """Return what the steps on a page say, in order."""
    found = re.findall(r'class="what" id="what-[^>]*>([^<]*?)\s*<', text)
    return [unescape(one).strip() for one in found]


@pytest.mark.parametrize("name", ["set-up", "reset"])
def test_the_page_has_the_steps_of_the_paper_card_in_its_order_and_words(
    asking: TestClient, studio: Studio, name: str
) -> None:

    gear = gear_of(studio)
    printing = Printing(gear.folder, gear.edition, Look("a4", 12, "en"))
    plan = {"set-up": set_up, "reset": reset}[name]
    card = lines.card(printing, plan(gear), name)
    paper = [
        line["text"]
        for part in card
        for block in part["blocks"]
        for section in block["sections"]
        for line in section["lines"]
    ]
    text = page(asking, f"?list={name}")
    assert told(text) == paper
    for part in card:
        assert part["title"] in unescape(text)


def test_a_lock_is_drawn_with_its_code_and_help_is_at_hand(
    asking: TestClient, studio: Studio
) -> None:
    gear = gear_of(studio)
    text = page(asking)
    assert text.count('class="plain face"') == len(gear.edition.game.locks) - 1  # one is paper
    dialog = text.partition('<dialog class="close-up" id="lock-0-sluice"')[2]
    code = "".join(gear.edition.codes["sluice"])
    assert f'<p class="code">{code}</p>' in dialog.partition("</dialog>")[0]
    assert "Never force a lock" in dialog.partition("</dialog>")[0]
    rows = re.findall(r'id="step-(\w[\w-]*):', text)
    assert 'href="/locks?game=tide-mill"' in text
    helped = text.count('class="plain wont"')
    on_locks = ("set", "test", "spare", "hang", "take-key", "scramble", "pull")
    assert helped == sum(rows.count(act) for act in on_locks) > 0


def test_sheets_are_told_apart_by_the_signs_in_their_foot(
    asking: TestClient, studio: Studio
) -> None:
    mark = gear_of(studio).edition.sheets["boat-shed"].mark
    row = page(asking).partition('id="step-put:boat-shed/sheet:1"')[2].partition("</li>")[0]
    assert re.findall(r'href="#sign-(\w+)"', row) == list(mark)


def test_nothing_printed_offers_to_make_it(asking: TestClient, studio: Studio) -> None:
    shutil.rmtree(studio.games / "tide-mill" / "editions")
    text = page(asking)
    assert "Nothing is printed yet" in text
    assert 'href="/games/tide-mill/print-outs"' in text
    assert told(text) == []


def test_a_set_of_another_state_of_the_game_is_not_set_up(
    asking: TestClient, studio: Studio
) -> None:
    file = studio.games / "tide-mill" / "kit.toml"
    file.write_bytes(file.read_bytes() + b"\n")
    assert "was changed since its set was printed" in page(asking)
    assert told(page(asking)) == []


# Ticking.


def test_looking_opens_no_session_and_the_first_tick_does(
    asking: TestClient, studio: Studio
) -> None:
    page(asking)
    with Ledger(studio.ledger) as ledger:
        assert ledger.sessions("tide-mill") == ()
        tap(asking, SET)
        tap(asking, TEST)
        assert len(ledger.sessions("tide-mill")) == 1


def test_a_tick_survives_reload_and_is_seen_elsewhere(asking: TestClient, studio: Studio) -> None:
    assert tap(asking, SET)["now"]["ticked"] == [SET]
    other = client(Studio(studio.games, studio.ledger))
    assert f'value="{SET}" autocomplete="off" checked' in page(other)
    now = other.get(f"{HERE}/now", params={"list": "set-up", "of": of(page(other))}).json()
    assert now["ticked"] == [SET]


def test_taps_that_come_together_are_answered_with_what_is_ticked_at_the_end(
    asking: TestClient,
) -> None:
    sent = [
        {"type": "step.ticked", "data": {"step": step}, "id": f"both-{step[:3]}1", "device": "d-1"}
        for step in (SET, TEST)
    ]
    query = {"list": "set-up", "of": of(page(asking))}
    answer = asking.post(f"{HERE}/taps", params=query, json={"taps": sent})
    first, last = answer.json()["answers"]
    assert (first["now"], first["problems"]) == (None, [])
    assert last["now"]["ticked"] == [SET, TEST]


def test_progress_counts_whole_steps_and_the_minutes_of_all_boxes(asking: TestClient) -> None:
    assert "0 of 74 · about 48 minutes left" in page(asking)
    assert tap(asking, SET)["now"]["done"] == 0
    assert tap(asking, "set:sluice:2")["now"]["said"] == "1 of 74 · about 46 minutes left"
    assert tap(asking, "set:sluice:2", done=False)["now"]["done"] == 0


def test_the_lock_book_is_written_by_the_way(asking: TestClient, studio: Studio) -> None:
    gear = gear_of(studio)
    tap(asking, SET)
    with Ledger(studio.ledger) as ledger:
        leaf = read(ledger)[kit_of(gear), gear.edition.stickers["1"]["sluice"]]
        assert leaf.code == "".join(gear.edition.codes["sluice"])
        assert leaf.game == "tide-mill"
        tap(asking, SET, done=False)
        assert read(ledger) == {}


def test_what_a_lock_is_set_to_now_stands_where_it_is_to_be_set(
    asking: TestClient, studio: Studio
) -> None:
    gear = gear_of(studio)
    tags = [gear.edition.stickers[group]["sluice"] for group in "12"]
    with Ledger(studio.ledger) as ledger:
        wall = SystemClock().now().wall
        record(ledger, LockEvent("before-1", kit_of(gear), tags[0], "lock.set", wall, "999"))
        record(ledger, LockEvent("before-2", kit_of(gear), tags[1], "lock.set", wall, "998"))
        record(ledger, LockEvent("before-3", kit_of(gear), tags[1], "lock.lost", wall))
    text = page(asking)
    assert f"{tags[0]} opens with 999 now, says the lock book." in text
    assert f"The code of {tags[1]} is lost; it was meant to be 998." in text
    tap(asking, SET)
    assert "opens with 999" not in page(asking)


def test_a_tick_for_another_printed_set_is_not_kept(asking: TestClient, studio: Studio) -> None:
    was = of(page(asking))
    made = asking.post("/games/tide-mill/print-outs/make", json={"groups": 1, "new": True})
    assert made.status_code == 200
    answer = tap(asking, SET, of=was)
    assert answer["problems"][0]["code"] == "page-set-up.other-set"
    with Ledger(studio.ledger) as ledger:
        assert ledger.sessions() == ()


@pytest.mark.parametrize(
    ("change", "status"),
    [
        ({"id": "x"}, 422),
        ({"device": "no device"}, 422),
        ({"happened_ms": 5}, 422),
        ({"rights": "pupil"}, 422),
        ({"type": "clock.started"}, 422),
        ({"more": 1}, 422),
        ({"data": {"step": "set:no-such:1"}}, 200),
    ],
)
def test_what_no_page_of_ours_sends_is_refused(
    asking: TestClient, studio: Studio, change: dict[str, Any], status: int
) -> None:
    one = {"type": "step.ticked", "data": {"step": SET}, "id": "tap-12345", "device": "d-1"}
    query = {"list": "set-up", "of": of(page(asking))}
    answer = asking.post(f"{HERE}/taps", params=query, json={"taps": [one | change]})
    assert answer.status_code == status
    with Ledger(studio.ledger) as ledger:
        assert ledger.sessions() == ()


def test_the_hour_begins_with_the_session_that_was_set_up(
    asking: TestClient, studio: Studio
) -> None:
    tap(asking, SET)
    names = {"1": "Window", "2": "Door"}
    begun = asking.post(
        "/games/tide-mill/hour/begin", json={"names": names, "minutes": 30, "purpose": "class"}
    )
    assert begun.status_code == 200, begun.text
    with Ledger(studio.ledger) as ledger:
        (session,) = ledger.sessions("tide-mill")
        assert ledger.events(session.id)[0].data["forecast"]
    text = page(asking)
    assert "A class is playing this game right now" in text
    assert f'value="{SET}" autocomplete="off" checked' in text


# Resetting.


def test_after_a_play_the_list_for_resetting_comes_first_with_ticks_of_its_own(
    asking: TestClient, studio: Studio
) -> None:
    tap(asking, SET)
    assert "From what the last class left" not in page(asking)
    play(studio, "clock.started", "clock.ended")
    text = page(asking)
    assert 'data-list="reset"' in text
    assert "From what the last class left" in text
    assert "checked" not in text.partition("data-list")[2].partition("<dialog")[0]
    assert 'data-list="set-up"' in page(asking, "?list=set-up")


def test_a_lock_that_was_set_otherwise_meanwhile_is_named(
    asking: TestClient, studio: Studio
) -> None:
    gear = gear_of(studio)
    tag = gear.edition.stickers["1"]["sluice"]
    tap(asking, SET)
    play(studio, "clock.started", "clock.ended")
    assert "says the lock book" not in page(asking)
    with Ledger(studio.ledger) as ledger:
        wall = SystemClock().now().wall
        record(ledger, LockEvent("meanwhile", kit_of(gear), tag, "lock.set", wall, "999"))
    assert f"{tag} was set to 999 meanwhile" in page(asking)


def test_a_group_counts_in_by_pictures_that_show_no_code(
    asking: TestClient, studio: Studio
) -> None:
    gear = gear_of(studio)
    text = asking.get(f"{HERE}/tray/2", headers=PAGE).text
    for id in ("case", "chest"):
        assert gear.edition.stickers["2"][id] in text
    shown = re.sub(r"<svg.*?</svg>", lambda svg: " ".join(re.findall(">([^<]+)<", svg[0])), text)
    for lock, code in gear.edition.codes.items():
        assert "".join(code) not in re.sub(r"\s", "", re.sub("<[^>]+>", "", shown)), lock
    assert 'class="pages"' not in text
    assert asking.get(f"{HERE}/tray/3", headers=PAGE).status_code == 404


# By hand.


def next_box(tab: Page) -> Any:
    return tab.locator(".step.here .box input:not(:checked)").first


def test_ticking_goes_down_the_list_and_stays(tab: Page, address: str) -> None:
    tab.goto(address + HERE)
    for _ in range(12):
        next_box(tab).check()
    expect(tab.locator("#progress")).to_contain_text("11 of 74")
    expect(tab.locator(".step.here")).to_be_in_viewport(ratio=0.9)
    tab.reload()
    expect(tab.locator(".box input:checked")).to_have_count(12)
    expect(tab.locator("#progress")).to_contain_text("11 of 74")


def test_a_tick_by_mistake_is_taken_back_with_the_space_bar(tab: Page, address: str) -> None:
    tab.goto(address + HERE)
    tab.locator("#next").press("Enter")
    first = tab.locator(".box input").first
    expect(first).to_be_focused()
    first.press("Space")
    expect(tab.locator("#progress")).to_contain_text("1 of 74")
    tab.wait_for_timeout(400)  # else it is taken for a hand that taps twice
    first.press("Space")
    expect(tab.locator("#progress")).to_contain_text("0 of 74")


def test_a_double_tap_is_one_tick(tab: Page, address: str) -> None:
    tab.goto(address + HERE)
    first = tab.locator(".box input").first
    first.dblclick()
    expect(tab.locator("#progress")).to_contain_text("1 of 74")
    expect(first).to_be_checked()


def test_a_section_is_ticked_at_once_and_taken_back_at_once(tab: Page, address: str) -> None:
    tab.goto(address + HERE)
    section = tab.locator(".section").first
    ticked, n = section.locator(".box input:checked"), section.locator(".box input").count()
    section.locator(".box input").nth(1).check()
    section.get_by_role("button", name=f"Tick all {n - 1}").dblclick()
    expect(tab.locator("#progress")).to_contain_text(f"{n} of 74")
    tab.reload()
    expect(ticked).to_have_count(n)
    section.get_by_role("button", name=f"Take back these {n - 1}").press("Enter")
    expect(tab.locator("#progress")).to_contain_text("1 of 74")
    expect(ticked).to_have_count(1)


def test_two_tablets_see_each_others_ticks(tab: Page, address: str) -> None:
    other = tab.context.browser.new_context().new_page()  # type: ignore[union-attr]
    for one in (tab, other):
        one.goto(address + HERE)
    next_box(other).check()
    expect(tab.locator(".box input").first).to_be_checked()
    expect(tab.locator("#progress")).to_contain_text("1 of 74")
    other.context.close()


def test_ticks_wait_while_the_studio_does_not_answer(
    tab: Page, studio: Studio, tmp_path: Path
) -> None:
    with served(studio) as address:
        tab.goto(address + HERE)
        tab.route("**/taps?**", lambda route: route.abort())
        next_box(tab).check()
        expect(tab.locator("#waits")).to_be_visible()
        tab.unroute("**/taps?**")
        tab.reload()
        expect(tab.locator("#progress")).to_contain_text("1 of 74")
        expect(tab.locator(".box input").first).to_be_checked()
        expect(tab.locator("#waits")).to_be_hidden()


def test_a_lock_is_looked_at_closely_and_closed_again(tab: Page, address: str) -> None:
    tab.goto(address + HERE)
    tab.get_by_role("button", name="See it larger: Lock with number wheels").first.click()
    close_up = tab.locator("dialog[open]")
    expect(close_up.get_by_role("heading", name="If it won’t open")).to_be_visible()
    tab.keyboard.press("Escape")
    expect(close_up).to_have_count(0)


def test_a_group_ticks_off_its_tray(tab: Page, address: str) -> None:
    tab.goto(f"{address}{HERE}/tray/1")
    boxes = tab.locator(".thing input")
    n = boxes.count()
    expect(tab.locator("#all-there")).to_have_text(f"Still to find: {n}")
    for at in range(n):
        boxes.nth(at).check()
    expect(tab.locator("#all-there")).to_contain_text("All there")
