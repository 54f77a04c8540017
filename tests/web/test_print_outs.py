"""The print-outs: how the printed set stands, every page seen, and ways to take them."""

from __future__ import annotations

import io
import re
import shutil
import zipfile
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page
from pypdfium2 import PdfDocument

from boxwright.build.current import current_editions
from boxwright.choose.store import CURRENT, EDITIONS
from boxwright.web.studio import Studio
from tests.games import BASE, DEMO
from tests.web.serving import PAGE, client, served, studio_in

HERE = "/games/small/print-outs"


def small(folder: Path, source: Path = DEMO) -> Studio:
    studio = studio_in(folder, example=None)
    shutil.copytree(source, studio.games / "small", ignore=shutil.ignore_patterns("editions"))
    return studio


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Studio:
    """A studio with a printed set, for tests that only look."""
    studio = small(tmp_path_factory.mktemp("printed"))
    make(client(studio))
    return studio


@pytest.fixture(scope="module")
def printed(ready: Studio) -> TestClient:
    return client(ready)


@pytest.fixture
def fresh(tmp_path: Path) -> Studio:
    """A studio with a game of which nothing was printed yet."""
    return small(tmp_path)


def make(asking: TestClient, at: str = HERE, **asked: Any) -> str:
    answer = asking.post(f"{at}/make", json=asked)
    assert answer.status_code == 200, answer.text
    said: str = answer.json()["said"]
    return said


def state(asking: TestClient, at: str = HERE) -> str:
    text = asking.get(at, headers=PAGE).text
    found = re.search(r"set set-(\w+)", text)
    assert found, text
    return found[1]


def change(studio: Studio, name: str = "kit.toml") -> None:
    file = studio.games / "small" / name
    file.write_bytes(file.read_bytes() + b"\n")


# How the printed set stands.


def test_without_a_printed_set_the_page_offers_to_make_one(fresh: Studio) -> None:
    asking = client(fresh)
    assert state(asking) == "none"
    assert asking.get(f"{HERE}/pages").text == ""
    assert "each proven to have one answer" in make(asking)
    assert state(asking) == "now"


def test_after_a_change_it_says_what_changed_and_prints_nothing_old(fresh: Studio) -> None:
    asking = client(fresh)
    make(asking)
    change(fresh)
    assert state(asking) == "changed"
    assert "Changed since: the kit" in asking.get(HERE, headers=PAGE).text
    refused = asking.get(f"{HERE}/pdf?file=key")
    assert refused.status_code == 422
    assert refused.json()["problems"][0]["remedy"] == "Go to Print-outs and make it now."
    make(asking)
    assert state(asking) == "now"


def test_codes_stay_when_it_is_made_again_unless_new_ones_are_asked_for(
    fresh: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    asking, game = client(fresh), fresh.games / "small"
    make(asking)
    before = current_editions(game)
    change(fresh)
    make(asking)
    assert current_editions(game)[0].codes == before[0].codes
    monkeypatch.setattr("secrets.randbelow", lambda most: (before[0].seed + 1) % most)
    make(asking, new=True)
    assert current_editions(game)[0].seed != before[0].seed


def test_another_sheet_for_a_clue_keeps_its_code(fresh: Studio) -> None:
    asking, game = client(fresh), fresh.games / "small"
    make(asking)
    (before,) = current_editions(game)
    clue = next(iter(before.sheets))
    assert asking.post(f"{HERE}/again", json={"clue": clue}).status_code == 200
    (after,) = current_editions(game)
    assert after.codes == before.codes
    assert after.sheets[clue].sheet != before.sheets[clue].sheet
    assert asking.post(f"{HERE}/again", json={"clue": "nobody"}).status_code == 422


def test_tables_and_who_is_at_each_are_kept_with_the_set(studio: Studio) -> None:
    asking, at = client(studio), "/games/tide-mill/print-outs"
    make(asking, at, groups=2, levels={"2": "easier"})
    editions = current_editions(studio.games / "tide-mill")
    assert [one.groups for one in editions] == [("1",), ("2",)]
    text = asking.get(at, headers=PAGE).text
    assert 'id="groups" name="groups" type="number" value="2"' in text
    assert text.count('<option value="easier" selected>') == 1


def test_more_tables_than_the_game_is_for_are_refused(studio: Studio) -> None:
    answer = client(studio).post("/games/tide-mill/print-outs/make", json={"groups": 9})
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["code"] == "arrange.group-count"


def test_a_set_that_cannot_be_read_is_told_and_new_codes_mend_it(fresh: Studio) -> None:
    asking = client(fresh)
    make(asking)
    (fresh.games / "small" / EDITIONS / CURRENT).write_text("{", encoding="utf-8")
    assert state(asking) == "lost"
    assert "draw new codes" in asking.get(HERE, headers=PAGE).text
    assert asking.post(f"{HERE}/make", json={}).status_code == 422
    make(asking, new=True)
    assert state(asking) == "now"


def test_a_stop_is_told_before_printing_and_printing_goes_on(tmp_path: Path) -> None:
    studio = small(tmp_path, BASE)
    file = studio.games / "small" / "game.toml"
    key = 'name = "a tin key"\nplace = "jar"'
    text = file.read_text(encoding="utf-8")
    assert text.count(key) == 1
    file.write_text(text.replace(key, key.replace("jar", "tin")), encoding="utf-8")
    asking = client(studio)
    make(asking)
    pages = asking.get(f"{HERE}/pages").text
    assert "You can print all the same." in pages
    assert "a tin key" in pages
    assert asking.get(f"{HERE}/pdf?file=key").status_code == 200


# Every page, and taking them.


def test_every_page_of_every_file_is_there_under_its_readers(printed: TestClient) -> None:
    text = printed.get(f"{HERE}/pages").text
    heads = re.findall(r'id="hands-(\w+)"', text)
    assert heads == ["pupils", "teacher", "office"]
    names = re.findall(r"<h3>([^<]+)</h3>", text)
    assert {"sheets-start", "rules", "key", "set-up", "sheets"} <= set(names)
    pages = len(re.findall(r'<a href="[^"]+" class="thumb">', text))
    whole = zipped(printed)
    assert pages == sum(len(PdfDocument(data)) for data in whole.values())


def test_pictures_of_pages_with_codes_are_not_asked_for_by_themselves(printed: TestClient) -> None:
    text = printed.get(f"{HERE}/pages").text
    teacher = text[text.index('id="hands-teacher"') : text.index('id="hands-office"')]
    assert "<img" in teacher
    assert 'src="' not in teacher


def test_a_picture_is_the_page_and_stays_the_same(printed: TestClient) -> None:
    text = printed.get(f"{HERE}/pages").text
    found = re.search(r'src="([^"]+file=rules[^"]+)"', text)
    assert found
    answer = printed.get(unescape(found[1]))
    assert answer.headers["Content-Type"] == "image/png"
    assert answer.content[:8] == b"\x89PNG\r\n\x1a\n"
    assert "immutable" in answer.headers["Cache-Control"]


@pytest.mark.parametrize(
    "asked", ["file=rules&at=99&of=", "file=nothing&at=1&of=", "file=rules&at=1&of=0123456789ab"]
)
def test_a_picture_that_is_not_there_is_not_found(printed: TestClient, asked: str) -> None:
    assert printed.get(f"{HERE}/picture?{asked}").status_code == 404


def test_one_file_opens_in_the_browser_under_its_name(printed: TestClient) -> None:
    answer = printed.get(f"{HERE}/pdf?file=set-up")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.headers["Content-Disposition"] == "inline; filename*=UTF-8''tide-mill-set-up.pdf"
    assert "object-src" not in answer.headers["Content-Security-Policy"]
    assert printed.get(f"{HERE}/pdf?file=nothing").status_code == 404


def test_a_pack_is_all_that_goes_into_somebodys_hands(printed: TestClient) -> None:
    files = zipped(printed)
    pack = PdfDocument(printed.get(f"{HERE}/pdf?hands=teacher").content)
    own = ("story", "key", "set-up", "reset", "debrief", "handover")
    assert len(pack) == sum(len(PdfDocument(files[f"tide-mill-{name}.pdf"])) for name in own)


def test_what_each_table_needs_stands_in_the_pupils_pack_as_often(studio: Studio) -> None:
    asking, at = client(studio), "/games/tide-mill/print-outs"
    make(asking, at, groups=2)
    pack = PdfDocument(asking.get(f"{at}/pdf?hands=pupils").content)
    texts = [page.get_textpage().get_text_range() for page in pack]
    assert sum(text.startswith("Rules") for text in texts) == 2
    assert sum(text.startswith("Labels") for text in texts) == 1


def test_paper_and_size_are_what_was_asked_for(printed: TestClient) -> None:
    data = printed.get(f"{HERE}/pdf?file=rules&paper=us-letter&size=18").content
    assert PdfDocument(data)[0].get_size() == pytest.approx((612, 792), abs=1)
    assert printed.get(f"{HERE}/pdf?file=rules&paper=a3").status_code == 422


def zipped(asking: TestClient) -> dict[str, bytes]:
    answer = asking.get(f"{HERE}/zip")
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_all_are_saved_into_a_folder_of_the_game(fresh: Studio) -> None:
    asking = client(fresh)
    make(asking)
    answer = asking.post(f"{HERE}/save", json={"folder": "out"})
    out = fresh.games / "small" / "out"
    assert str(out) in answer.json()["said"]
    assert {file.name for file in out.glob("*.pdf")} == zipped(asking).keys()


@pytest.mark.parametrize("folder", ["game.toml", "x" * 300, "game.toml/in"])
def test_a_folder_that_cannot_be_is_told(printed: TestClient, folder: str) -> None:
    answer = printed.post(f"{HERE}/save", json={"folder": folder})
    assert answer.status_code == 422
    assert "--out" not in answer.text


@pytest.mark.parametrize("folder", ["", "  ", "a\0b", "y" * 401])
def test_what_is_no_name_of_a_folder_is_refused(printed: TestClient, folder: str) -> None:
    assert printed.post(f"{HERE}/save", json={"folder": folder}).status_code == 422


# In the browser.


def test_pages_come_by_themselves_and_open_large_by_keyboard(ready: Studio, tab: Page) -> None:
    with served(ready) as address:
        tab.goto(address + HERE)
        first = tab.locator(".thumb").first
        first.focus()
        tab.keyboard.press("Enter")
        large = tab.locator("#large")
        title = large.locator("h2")
        before = title.inner_text()
        tab.keyboard.press("ArrowRight")
        assert title.inner_text() != before
        tab.keyboard.press("Escape")
        assert not large.is_visible()
        assert tab.evaluate("document.activeElement.className") == "thumb"


def test_codes_are_covered_until_they_are_asked_for(ready: Studio, tab: Page) -> None:
    with served(ready) as address:
        tab.goto(address + HERE)
        key = tab.get_by_alt_text(re.compile("^key, page 1"))
        key.wait_for(state="attached")
        assert not key.is_visible()
        tab.get_by_label("Show pages with codes").check()
        key.scroll_into_view_if_needed()
        assert key.is_visible()
        assert key.get_attribute("src")


def test_made_in_the_browser_with_as_many_tables_as_are_said(studio: Studio, tab: Page) -> None:
    with served(studio) as address:
        tab.goto(f"{address}/games/tide-mill/print-outs")
        assert not tab.get_by_label("Table 2", exact=True).is_visible()
        tab.get_by_label("How many tables play?").fill("2")
        tab.get_by_label("Table 2", exact=True).select_option("easier")
        tab.get_by_role("button", name="Make it now").click()
        tab.get_by_text("The printed set is as the game is now").wait_for()
        assert len(current_editions(studio.games / "tide-mill")) == 2


def test_the_paper_is_remembered_and_what_is_taken_looks_as_what_is_shown(
    ready: Studio, tab: Page
) -> None:
    with served(ready) as address:
        tab.goto(address + HERE)
        tab.get_by_label("Paper", exact=True).select_option("us-letter")
        tab.goto(address + HERE)
        assert tab.get_by_label("Paper", exact=True).input_value() == "us-letter"
        assert "paper=us-letter" in (tab.locator("#zip").get_attribute("href") or "")
        tab.get_by_text("Save all files").click()
        tab.get_by_label("Into this folder").fill("letter")
        tab.get_by_role("button", name="Save all").click()
        tab.get_by_text("Saved").wait_for()
        file = ready.games / "small" / "letter" / "tide-mill-key.pdf"
        assert PdfDocument(file)[0].get_size() == pytest.approx((612, 792), abs=1)
        assert tab.get_by_label("Into this folder").input_value() == "letter"
