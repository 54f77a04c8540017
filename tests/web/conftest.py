"""What tests of pages share: one browser for all, and a studio for each."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from anyio.from_thread import start_blocking_portal
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Page, expect, sync_playwright

from boxwright.web.studio import Studio
from tests.web.serving import LOOP, PATIENCE_MS, client, served, studio_in

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
LAPTOP = {"width": 1366, "height": 768}


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's Chromium, without a window."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    assert found, "no browser: python3 go.py test says what to install"
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=found, args=["--no-sandbox", "--disable-gpu"]
        )
        yield browser
        browser.close()


@pytest.fixture(scope="session", autouse=True)
def loop() -> Iterator[None]:
    """One event loop for all clients."""
    with start_blocking_portal() as LOOP.portal:
        yield
    LOOP.portal = None


@pytest.fixture
def studio(tmp_path: Path) -> Studio:
    """A studio with a copy of the example in it."""
    return studio_in(tmp_path)


@pytest.fixture
def asking(studio: Studio) -> TestClient:
    """A client that asks that studio."""
    return client(studio)


@pytest.fixture
def address(studio: Studio) -> Iterator[str]:
    """Where that studio listens."""
    with served(studio) as address:
        yield address


@pytest.fixture
def tab(browser: Browser) -> Iterator[Page]:
    """An empty page of a laptop's size; what a page's scripts complain of fails the test."""
    context = browser.new_context(viewport=LAPTOP, reduced_motion="reduce")  # type: ignore[arg-type]
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    yield page
    context.close()
    assert faults == []
