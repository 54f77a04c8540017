"""Whether a page can be used by everyone: what axe-core finds, in light and in dark."""

from __future__ import annotations

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

COLOURS = ("color-contrast", "link-in-text-block")
"""Axe's rules that a colour scheme can break; the others see the same page in light and dark."""


def faults(page: Page, *rules: str) -> list[str]:
    """Return what axe finds by its usual rules, or by these; each with the things it is about."""
    asked: dict[str, Any] = {"resultTypes": ["violations"]}
    if rules:
        asked["runOnly"] = {"type": "rule", "values": rules}
    found = Axe().run(page, options=asked).response["violations"]
    return [f"{one['id']}: {[node['target'] for node in one['nodes']][:5]}" for one in found]


def faults_in_light_and_dark(page: Page) -> list[str]:
    """Return what axe finds in a light page, and of its colours in a dark one, which it stays."""
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    found = faults(page)
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")
    return [*found, *(f"dark, {fault}" for fault in faults(page, *COLOURS))]
