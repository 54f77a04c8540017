"""The shelf of boxes: what it shows, and how things on it are chosen, moved and changed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from boxwright.game.folder import Folder, read_game
from boxwright.web.studio import Studio
from tests.web.serving import client

PAGE = {"Accept": "text/html"}
HERE = "/games/tide-mill/boxes"


def shelf(studio: Studio, query: str = "") -> str:
    """Return the page of boxes."""
    answer = client(studio).get(f"{HERE}{query}", headers=PAGE)
    assert answer.status_code == 200
    return answer.text


def change(studio: Studio, old: str, new: str) -> None:
    """Change the game's file as an editor would."""
    file = studio.games / "tide-mill" / "game.toml"
    text = file.read_text("utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), "utf-8")


def game_of(studio: Studio) -> Folder:
    """Return the game as its files stand."""
    folder = read_game(studio.games / "tide-mill")
    assert isinstance(folder, Folder)
    return folder


# What it shows.


def test_boxes_stand_in_boxes_with_locks_and_sheets(studio: Studio) -> None:
    text = shelf(studio)
    case = text[text.index('id="box-case"') : text.index('id="box-packet"')]
    for id in ("lock-sluice", "sheet-boat-shed", "box-pouch", "lock-race", "sheet-mill-hands"):
        assert f'id="{id}"' in case


def test_a_reader_hears_what_a_thing_is(studio: Studio) -> None:
    text = shelf(studio)
    assert "the grain chest, a box with 2 locks and 1 thing in it" in text
    assert "Count with care, a sheet of the clue boat-shed" in text
    assert "sluice, a lock with number wheels" in text


def test_wishes_change_the_ways_and_what_is_in_play(studio: Studio) -> None:
    assert 'id="out-torch"' in shelf(studio)
    harder = shelf(studio, "?level=harder")
    assert 'id="item-torch"' in harder
    assert "Comes into play:" in harder
    assert "boat-shed · by-torch" in harder
    assert "boat-shed · by-torch" in shelf(studio, "?arrangement=brisk")


def test_the_chosen_thing_says_what_hangs_together_with_it(studio: Studio) -> None:
    text = shelf(studio, "?thing=water")
    panel = text[text.index('id="panel"') :]
    assert "Its code is told by" in panel
    assert "float-or-sink" in panel


def test_what_way_is_chosen_stands_with_its_clue(studio: Studio) -> None:
    answer = client(studio).get(f"{HERE}/thing?thing=find-key")
    assert re.search(r"<strong>fences</strong>.*chosen now", answer.text, re.S)
    assert "for a library" in answer.text


def test_each_sort_of_thing_has_a_panel(studio: Studio) -> None:
    for id in ("case", "race", "latch", "torch", "find-key", "start", "sill"):
        answer = client(studio).get(f"{HERE}/thing?thing={id}")
        assert answer.status_code == 200
        assert f'data-thing="{id}"' in answer.text


def test_an_unknown_thing_is_no_error(studio: Studio) -> None:
    assert "Choose a thing" in shelf(studio, "?thing=zeppelin")


@pytest.mark.parametrize("query", ["?thing=" + "x" * 41, "/add?sort=lorry", "?level=mild"])
def test_nonsense_is_refused(studio: Studio, query: str) -> None:
    assert client(studio).get(f"{HERE}{query}").status_code == 422


def test_faults_are_told_with_their_lines_and_mended_where_that_needs_no_thought(
    studio: Studio,
) -> None:
    change(studio, "ages = [9, 11]", "ages = [11, 9]")
    text = shelf(studio)
    assert "game.toml, line 10" in text
    assert 'data-do="remedy.apply"' in text
    assert 'role="tree"' not in text


def test_a_game_that_cannot_be_played_as_wished_is_drawn_as_it_is_written(studio: Studio) -> None:
    change(studio, 'place = ["reading-chair", "any seat"]', 'place = "tin"')
    assert 'id="box-tin"' in shelf(studio)
    found = client(studio).get(f"{HERE}/findings").text
    assert 'class="bars"' in found
    assert "a brass key" in found


def test_a_thing_moved_by_a_way_says_so(studio: Studio) -> None:
    change(studio, 'needs = ["torch"]', 'moves = { gear = "case" }\nneeds = ["torch"]')
    answer = client(studio).get(f"{HERE}/thing?thing=gear&level=harder")
    assert "as it is done now, puts it here" in answer.text


def test_names_are_text_and_never_markup(studio: Studio) -> None:
    change(studio, '"the grain chest"', '"<i>chest</i>"')
    assert "<i>chest" not in shelf(studio, "?thing=chest")


def test_the_strip_has_the_codes_drawn_and_marks_for_the_shelf(studio: Studio) -> None:
    text = client(studio).get(f"{HERE}/findings").text
    assert "Nothing to fix" in text
    assert 'data-face="sluice"' in text
    assert "tide-book" in text[text.index("data-marks") : text.index("</p>")]


def test_a_clue_is_offered_the_puzzles_that_can_carry_its_lock(studio: Studio) -> None:
    text = client(studio).get(f"{HERE}/add?sort=clue&gives=race").text
    kinds = text[text.index('name="kind"') :]
    kinds = kinds[: kinds.index("</select>")]
    assert 'value="route-map"' in kinds
    assert 'value="nonogram"' not in kinds


def test_the_question_before_removing_tells_what_goes_along(studio: Studio) -> None:
    text = client(studio).get(f"{HERE}/thing?thing=case").text
    question = text[text.index("<dialog") :]
    assert "the lock “sluice”" in question
    assert "the clue “flour-sacks”" in question
    assert "an oilskin pouch and the clue “boat-shed”" in question


# What hands do.


def ready(tab: Page, address: str, query: str = "") -> None:
    """Open the page and wait for what the checks find, and for the time plan."""
    tab.set_viewport_size({"width": 1366, "height": 1400})
    tab.goto(f"{address}{HERE}{query}")
    tab.wait_for_selector("#strip .count")
    tab.wait_for_selector("#plan-strip p")


def middle(tab: Page, thing: str) -> tuple[float, float]:
    """Return where the middle of a thing is now."""
    box = tab.locator(thing).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(tab: Page, thing: str, to: str) -> None:
    """Drag one thing over another by mouse, looking where it is once more before letting go."""
    x, y = middle(tab, thing)
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 15, y + 15, steps=2)
    tab.mouse.move(*middle(tab, to), steps=4)
    tab.mouse.move(*middle(tab, to), steps=2)
    tab.mouse.up()


def test_a_thing_is_dragged_and_the_move_undone(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    drag(tab, "#item-notes", "#box-case > .front")
    expect(tab.locator("#box-case > ul > #item-notes")).to_be_visible()
    assert game_of(studio).game.items["notes"].place == "case"
    tab.keyboard.press("Control+z")
    expect(tab.locator("#box-chest > ul > #item-notes")).to_be_visible()
    assert game_of(studio).game.items["notes"].place == "chest"


def test_what_cannot_be_is_refused_with_the_reason(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    drag(tab, "#box-case > .front", "#box-pouch > .front")
    expect(tab.locator("#said")).to_contain_text("cannot lie in itself")
    drag(tab, "#lock-sluice", "#at-sill > .board")
    expect(tab.locator("#said")).to_contain_text("A lock hangs on a box")
    assert game_of(studio).game.boxes["case"].place == "table"


def test_all_is_done_by_keyboard(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    tab.focus("#at-start")
    for _ in range(3):
        tab.keyboard.press("ArrowDown")
    tab.keyboard.press("a")
    tab.get_by_role("button", name="A box", exact=True).last.press("Enter")
    tab.get_by_label("Name, as pupils read it").last.fill("the tea tin")
    tab.keyboard.press("Enter")
    expect(tab.locator("#box-tea-tin")).to_be_focused()
    tab.keyboard.press("m")
    expect(tab.locator("#move-all")).to_be_focused()
    tab.locator("#move-all").select_option("sill")
    tab.locator("#move-all").press("Tab")
    tab.keyboard.press("Enter")
    expect(tab.locator("#at-sill #box-tea-tin")).to_be_visible()
    tab.locator("#box-tea-tin").press("Delete")
    tab.locator("#remove-now").press("Enter")
    expect(tab.locator("#box-tea-tin")).to_have_count(0)
    expect(tab.locator("#at-sill")).to_be_focused()
    assert "tea-tin" not in game_of(studio).game.boxes


def test_a_lock_is_added_without_scrolling(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    tab.set_viewport_size({"width": 1366, "height": 768})
    tab.locator("#add-lock").click()
    tab.get_by_role("radio", name="lock with letter wheels").check(force=True)
    add = tab.get_by_role("dialog").get_by_role("button", name="Add", exact=True)
    expect(add).to_be_in_viewport(ratio=1)
    tab.get_by_text("A code of your own").click()
    tab.get_by_label("Code", exact=True).fill("MUD")
    expect(add).to_be_in_viewport(ratio=1)
    add.click()
    expect(tab.locator("#thing-title")).to_have_text("lock with letter wheels")
    assert "MUD" in [lock.code for lock in game_of(studio).game.locks.values()]


def test_a_new_clue_begins_with_the_table_that_serves_its_puzzle(tab: Page, address: str) -> None:
    ready(tab, address, "?thing=gear")
    tab.locator("#add-clue").click()
    tab.get_by_label("What pupils do").select_option("quiz-index")
    expect(tab.locator("#new-content")).to_have_value("tides.csv")
    tab.get_by_label("What pupils do").select_option("nonogram")
    expect(tab.locator("#new-content")).to_have_value("")


def test_enter_renames_and_sends_once(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    sent: list[str] = []
    tab.on("request", lambda one: sent.append(one.url) if "/do/" in one.url else None)
    tab.locator("#box-chest").press("Enter")
    expect(tab.locator("#set-name")).to_be_focused()
    tab.keyboard.type("the flour bin")
    tab.keyboard.press("Enter")
    expect(tab.locator("#box-chest > .front")).to_contain_text("the flour bin")
    assert game_of(studio).game.boxes["chest"].name == "the flour bin"
    assert len(sent) == 1


def test_a_wrong_code_is_told_beside_it_and_kept(tab: Page, address: str) -> None:
    ready(tab, address, "?thing=sluice")
    tab.fill("#set-code", "12X")
    tab.keyboard.press("Tab")
    expect(tab.locator("#panel .problems")).to_be_visible()
    expect(tab.locator("#set-code")).to_have_value("12X")


def test_a_missing_measure_is_told_once_all_three_are_left_and_nothing_is_lost(
    tab: Page, address: str, studio: Studio
) -> None:
    ready(tab, address, "?thing=case")
    tab.locator("#set-inside_mm-1").fill("")
    tab.keyboard.press("Tab")
    problem = tab.locator("#panel .problem")
    expect(problem).to_have_count(0)
    tab.keyboard.press("Tab")
    expect(problem).to_contain_text("One of these numbers is missing")
    expect(tab.locator("#set-locks")).to_be_focused()
    tab.locator("#set-inside_mm-1").fill("200")
    tab.keyboard.press("Tab")
    expect(tab.locator("#said")).to_contain_text("inside measures")
    expect(problem).to_have_count(0)
    expect(tab.locator("#set-inside_mm-2")).to_be_focused()
    assert game_of(studio).game.boxes["case"].inside_mm == (280, 200, 70)


def test_a_wish_changes_the_picture_without_a_reload(tab: Page, address: str) -> None:
    ready(tab, address)
    tab.evaluate("() => { document.body.dataset.same = 'yes'; }")
    tab.select_option("#ways", "level=harder")
    expect(tab.locator("#box-pouch #item-torch")).to_be_visible()
    assert tab.url.endswith("?level=harder")
    tab.check("#has-scanner")
    expect(tab.locator("#undo")).to_be_enabled()
    tab.select_option("#setting", "library")
    expect(tab.locator("#sheet-find-key")).to_contain_text("bars")
    assert tab.evaluate("() => document.body.dataset.same") == "yes"


def test_a_wish_goes_along_to_the_other_pages(tab: Page, address: str) -> None:
    ready(tab, address)
    tab.select_option("#groups", "2")
    expect(tab.get_by_role("link", name="Things to fix")).to_have_attribute(
        "href", re.compile("groups=2")
    )


def test_a_finger_presses_and_drags(tab: Page, address: str, studio: Studio) -> None:
    ready(tab, address)
    places = [tab.locator(one).bounding_box() for one in ("#item-notes", "#box-case > .front")]
    points = [{"x": one["x"] + 20, "y": one["y"] + 8} for one in places if one]
    hand = tab.context.new_cdp_session(tab)
    hand.send("Emulation.setTouchEmulationEnabled", {"enabled": True})
    hand.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [points[0]]})
    tab.wait_for_selector(".ghost")
    hand.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [points[1]]})
    hand.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    expect(tab.locator("#box-case > ul > #item-notes")).to_be_visible()


def test_choosing_a_clue_shows_where_it_leads(tab: Page, address: str) -> None:
    ready(tab, address)
    tab.click("#sheet-tide-book")
    expect(tab.locator("#lock-seal .tie")).to_have_text("it leads here")
    assert tab.url.endswith("?thing=tide-book")
    tab.reload()
    expect(tab.locator("#sheet-tide-book")).to_have_attribute("aria-selected", "true")


def test_a_fault_is_mended_by_one_click(tab: Page, address: str, studio: Studio) -> None:
    change(studio, "ages = [9, 11]", "ages = [11, 9]")
    tab.goto(f"{address}{HERE}")
    tab.get_by_role("button", name="Do that").click()
    expect(tab.locator("#box-chest")).to_be_visible()
    assert Path(studio.games / "tide-mill" / "game.toml").read_text("utf-8").count("[9, 11]") == 1
