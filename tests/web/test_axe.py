"""Every page can be used by everyone: no fault that axe finds, and no scrolling sideways.

Pages are taken from the contents, so that a new one is looked at by itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing, suppress
from typing import Any

import pytest
from fastapi.responses import HTMLResponse
from fastapi.routing import APIRoute
from fastapi.testclient import TestClient
from playwright.sync_api import Page
from playwright.sync_api import TimeoutError as PlaywrightTimeoutError

from boxwright.build import build
from boxwright.build.current import keep, last_asked
from boxwright.game.folder import Folder, read_game
from boxwright.ledger.store import Ledger
from boxwright.live.clock import SystemClock
from boxwright.live.desk import Desk
from boxwright.web.contents import CONTENTS, Entry
from boxwright.web.guard import HEADERS
from boxwright.web.studio import Studio
from tests.web.access import faults, faults_in_light_and_dark
from tests.web.serving import client, served, studio_in

GAME = "tide-mill"
NARROW = {"width": 320, "height": 640}
WIDE = {"width": 1366, "height": 768}
STEMS = [entry.stem for entry in CONTENTS]


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Studio:
    """A studio with the example, for which a printed set was made and a session opened."""
    studio = studio_in(tmp_path_factory.mktemp("axe"))
    asked = last_asked(studio.games / GAME)
    built = build(asked)
    keep(built, asked)
    with closing(Ledger(studio.ledger)) as ledger:
        Desk(ledger, SystemClock()).open(built.editions, 2400, {"1": "The window table"})
    return studio


@pytest.fixture(scope="module")
def asking(printed: Studio) -> TestClient:
    return client(printed)


@pytest.fixture(scope="module")
def listening(printed: Studio) -> Iterator[str]:
    with served(printed) as address:
        yield address


def pages_of(entry: Entry, studio: Studio, asking: TestClient) -> Iterator[str]:
    """Yield the address of every page of a stem, filled in with what the example has."""
    for route in entry.router.routes:
        if not (isinstance(route, APIRoute) and is_html(route)):
            continue
        address = (entry.path + route.path).format(**filled(studio)) or "/"
        answer = asking.get(address, headers={"Accept": "text/html"})
        if answer.status_code == 422 and route.dependant.query_params:
            continue  # a piece that is asked for with more
        assert answer.status_code == 200, address
        if answer.text.lower().startswith("<!doctype html>"):  # no piece of a page
            yield address


def is_html(route: APIRoute) -> bool:
    kind: Any = route.response_class
    return "GET" in (route.methods or ()) and kind is HTMLResponse


def filled(studio: Studio) -> dict[str, str]:
    """Return something of the example for each blank that an address may have."""
    folder = read_game(studio.games / GAME)
    assert isinstance(folder, Folder)
    assert folder.kit is not None
    clue, first = next(iter(folder.game.clues.items()))
    with closing(Ledger(studio.ledger)) as ledger:
        session = ledger.sessions(GAME)[0].id
    return {
        "game": GAME,
        "clue": clue,
        "way": next(iter(first.versions)),
        "name": next(file.name for file in sorted((folder.path / "content").iterdir())),
        "kit": folder.kit.kit.id,
        "tag": next(iter(folder.kit.locks)),
        "session": session,
        "group": "1",
    }


def settle(tab: Page) -> None:
    """Wait for what comes after the page, unless that never ends."""
    with suppress(PlaywrightTimeoutError):
        tab.wait_for_load_state("networkidle", timeout=5000)


@pytest.mark.parametrize("stem", STEMS)
def test_each_page_is_for_everyone_in_light_and_dark_and_narrow(
    stem: str, printed: Studio, asking: TestClient, listening: str, tab: Page
) -> None:
    entry = next(one for one in CONTENTS if one.stem == stem)
    addresses = list(pages_of(entry, printed, asking))
    assert addresses
    for address in addresses:
        tab.set_viewport_size(WIDE)  # type: ignore[arg-type]
        answer = tab.goto(listening + address)
        assert answer is not None
        policy = answer.headers["content-security-policy"]
        assert policy == HEADERS["Content-Security-Policy"]
        settle(tab)
        tab.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        assert faults_in_light_and_dark(tab) == [], address
        tab.set_viewport_size(NARROW)  # type: ignore[arg-type]
        assert tab.evaluate("document.documentElement.scrollWidth") <= NARROW["width"], address


def test_a_fault_would_be_found(listening: str, tab: Page) -> None:
    tab.goto(f"{listening}/games")
    tab.evaluate("document.querySelector('main').append(document.createElement('button'))")
    assert any(fault.startswith("button-name") for fault in faults(tab))


def test_a_fault_of_the_dark_scheme_alone_would_be_found(listening: str, tab: Page) -> None:
    tab.goto(f"{listening}/games")
    tab.evaluate("document.querySelector('main p').style.color = '#555'")
    [found] = faults_in_light_and_dark(tab)
    assert found.startswith("dark, color-contrast")
