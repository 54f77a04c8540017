"""After the hour: what happened is drawn and told, taken along, taken up again, or forgotten."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from boxwright.build import Asked, build
from boxwright.build.current import keep
from boxwright.choose.chance import Chance
from boxwright.game.choosing import Wishes
from boxwright.ledger.event import wall_here
from boxwright.ledger.store import Ledger
from boxwright.web.studio import Studio
from tests.web.access import faults_in_light_and_dark
from tests.web.playing import AFTER, HOUR, begun, in_play, tap, taps
from tests.web.serving import client, studio_in


@pytest.fixture
def played(studio: Studio) -> tuple[TestClient, str]:
    """A session in which one table did several things."""
    asking, session = in_play(studio)
    taps(
        asking,
        session,
        tap("hint.given", group="1", clue="flour-sacks", line=1),
        tap("code.tried", group="1", lock="sluice", right=False),
        tap("lock.opened", group="1", lock="sluice"),
        tap("note.made", group="2", text="=quarrelled"),
    )
    return asking, session


def test_a_game_that_nobody_played_says_so(studio: Studio) -> None:
    assert "was not played yet" in client(studio).get(AFTER).text


def test_plays_are_listed_with_their_tables(played: tuple[TestClient, str]) -> None:
    asking, session = played
    page = asking.get(AFTER).text
    assert f'href="{AFTER}/{session}"' in page
    assert "Window and Door" in page
    assert "Not closed yet." in page


def test_every_table_is_drawn_and_told(played: tuple[TestClient, str]) -> None:
    asking, session = played
    page = asking.get(f"{AFTER}/{session}").text
    assert page.count('class="track"') == 2
    for sort in ("opened", "hint", "wrong", "note"):
        assert f"mark-{sort}" in page
    assert "Window opened the lock sluice" in page
    assert "How could you make the same clay float?" in page


def test_solutions_come_with_their_working(played: tuple[TestClient, str]) -> None:
    asking, session = played
    page = asking.get(f"{AFTER}/{session}/solutions").text
    assert page.count('class="solution"') == 7
    assert "<li>" in page


def test_the_report_comes_on_paper(played: tuple[TestClient, str]) -> None:
    asking, session = played
    answer = asking.get(f"{AFTER}/{session}/report.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_the_report_comes_for_a_spreadsheet_that_runs_nothing(
    played: tuple[TestClient, str],
) -> None:
    asking, session = played
    text = asking.get(f"{AFTER}/{session}/report.csv").content.decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [row["what"] for row in rows if row["table"] == "Window"][:3] == [
        "hint.given",
        "code.tried",
        "lock.opened",
    ]
    assert not any(cell.startswith("=") for row in rows for cell in row.values())


def test_a_session_of_another_game_is_not_shown_here(
    played: tuple[TestClient, str], studio: Studio
) -> None:
    asking, session = played
    asking.post("/games", json={"title": "Other", "youngest": 9, "oldest": 11})
    other = next(name for name in studio.names() if name != "tide-mill")
    assert asking.get(f"/games/{other}/after/{session}").status_code == 404


def test_an_hour_closed_too_early_is_taken_up_again(played: tuple[TestClient, str]) -> None:
    asking, session = played
    taps(asking, session, tap("session.closed"))
    assert f'data-session="{session}"' not in asking.get(HOUR).text
    assert asking.post(f"{AFTER}/{session}/reopen").json() == {"next": HOUR}
    assert f'data-session="{session}"' in asking.get(HOUR).text
    assert asking.post(f"{AFTER}/{session}/reopen").status_code == 422


def test_what_is_forgotten_is_in_no_file(tmp_path: Path) -> None:
    studio = studio_in(tmp_path)
    asking, session = in_play(studio)
    taps(asking, session, tap("note.made", text="only-here", group="1"))
    assert asking.post(f"{AFTER}/{session}/forget").status_code == 200
    assert asking.get(f"{AFTER}/{session}").status_code == 422
    left = b"".join(file.read_bytes() for file in tmp_path.glob("ledger*"))
    assert left
    assert b"only-here" not in left


# In the browser


@pytest.fixture
def after(tab: Page, address: str, played: tuple[TestClient, str]) -> Page:
    tab.goto(f"{address}{AFTER}/{played[1]}")
    return tab


def test_forgetting_is_asked_about_first(after: Page) -> None:
    after.get_by_role("button", name="Forget it", exact=True).click()
    after.get_by_role("button", name="Keep it").click()
    expect(after.get_by_role("dialog")).to_be_hidden()
    after.get_by_role("button", name="Forget it", exact=True).click()
    after.get_by_role("button", name="Forget it for good").click()
    expect(after.locator(".empty")).to_contain_text("was not played yet")


def test_taps_that_could_not_be_sent_in_the_hour_are_sent_now(after: Page) -> None:
    session = after.locator("#played").get_attribute("data-session")
    late = tap("note.made", text="sent late", group="1") | {"at": 0}
    key = f"boxwright.tap.{session}.0.000001.{late['id']}"
    after.evaluate("([key, text]) => localStorage.setItem(key, text)", [key, json.dumps(late)])
    with after.expect_response("**/taps/**"):
        after.reload()
    after.reload()
    expect(after.locator("#told-title ~ details").first).to_contain_text("sent late")


def test_tables_that_played_other_ways_have_solutions_of_their_own(studio: Studio) -> None:
    asked = Asked(studio.games / "tide-mill", Wishes(groups=2, levels={"2": "harder"}), Chance(1))
    keep(build(asked), asked)
    asking = client(studio)
    session = begun(asking)
    page = asking.get(f"{AFTER}/{session}/solutions").text
    assert page.count("<h3>") == 2
    assert "Window" in page
    assert "Door" in page


def test_a_play_is_told_by_when_its_clock_was_started(studio: Studio) -> None:
    """Not by the first tick of the set-up, which may be of the day before."""
    asking, session = in_play(studio)
    with Ledger(studio.ledger) as ledger:
        started = next(one for one in ledger.events(session) if one.type == "clock.started")
    assert wall_here(started.wall) in asking.get(f"{AFTER}/{session}").text


def test_solutions_are_fetched_when_they_are_wanted(after: Page) -> None:
    expect(after.locator(".solution")).to_have_count(0)
    after.get_by_text("Answers, and how one gets there").click()
    expect(after.locator(".solution")).to_have_count(7)


def test_nothing_stands_in_anybodys_way_afterwards(after: Page) -> None:
    assert faults_in_light_and_dark(after) == []
