"""How soon a page of the studio can be read, and how heavy it is, in the system's Chromium.

    .venv/bin/python bench/studio.py [--json] [--rounds 5]

Every page without parameters of its own, over a copy of the example game, each in a fresh browser
profile: from the navigation to the first paint with content (ms), bytes sent without pictures (kB),
and how far things jumped while it loaded (the layout shift score; 0 is none). `cold` is the
first visit after the studio started, when nothing has been worked out yet. The goals: 300 ms,
150 kB, a shift below 0.02.
"""

from __future__ import annotations

import argparse
import json
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

GOALS = {"paint_ms": 300.0, "kb": 150.0, "shift": 0.02}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
SETTLE_MS = 1200  # after loading, for what is fetched late and may make things jump
PROBE = """() => {
  const paint = performance.getEntriesByName('first-contentful-paint')[0];
  const all = ['navigation', 'resource'].flatMap((sort) => performance.getEntriesByType(sort));
  const isPicture = (one) => one.initiatorType === 'img' || /[.](png|svg|jpe?g)/.test(one.name);
  const heavy = all.filter((one) => !isPicture(one));
  return {
    paint_ms: paint ? paint.startTime : null,
    kb: heavy.reduce((sum, one) => sum + one.transferSize, 0) / 1000,
    shift: window.shifted || 0,
  };
}"""
WATCH = """new PerformanceObserver((list) => {
  for (const one of list.getEntries()) {
    if (!one.hadRecentInput) window.shifted = (window.shifted || 0) + one.value;
  }
}).observe({ type: 'layout-shift', buffered: true });"""


def addresses() -> Iterator[tuple[str, str]]:
    """Yield each page's stem and address in the example game."""
    from boxwright.web.contents import CONTENTS

    for entry in CONTENTS:
        path = entry.path.replace("{game}", "tide-mill")
        if "{" not in path:
            yield entry.stem, path


def visited(browser: Any, address: str) -> dict[str, float]:
    """Return what one visit with an empty profile measured."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.add_init_script(WATCH)
    page.goto(address, wait_until="load")
    page.wait_for_timeout(SETTLE_MS)
    found: dict[str, float] = page.evaluate(PROBE)
    context.close()
    return found


def measure(rounds: int) -> dict[str, dict[str, float]]:
    """Return for each page what was measured."""
    from playwright.sync_api import sync_playwright

    from tests.web.serving import served, studio_in

    binary = next(path for name in BROWSERS if (path := shutil.which(name)))
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=binary, args=["--no-sandbox", "--disable-gpu"]
        )
        with served(studio_in(Path(folder))) as home:
            visited(browser, home + "/games")  # the browser itself warms up
            found = {stem: of_page(browser, home + path, rounds) for stem, path in addresses()}
        browser.close()
    return found


def of_page(browser: Any, address: str, rounds: int) -> dict[str, float]:
    """Return a page's medians, and its very first visit."""
    visits = [visited(browser, address) for _ in range(rounds + 1)]
    middle = {name: median(visit[name] for visit in visits[1:]) for name in GOALS}
    return {"cold_ms": round(visits[0]["paint_ms"], 1)} | {
        name: round(value, 3) for name, value in middle.items()
    }


def main() -> None:
    """Measure and print; exit 1 where a goal is missed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--rounds", type=int, default=5)
    chosen = options.parse_args()
    found = measure(chosen.rounds)
    missed = [stem for stem, of in found.items() if any(of[name] > GOALS[name] for name in GOALS)]
    if chosen.json:
        print(json.dumps({"pages": found, "goals": GOALS, "missed": missed}, indent=1))
    else:
        for stem, of in found.items():
            print(
                f"{stem:14} paint {of['paint_ms']:7.1f} ms (cold {of['cold_ms']:7.1f}) "
                f"{of['kb']:7.1f} kB  shift {of['shift']:.3f}"
            )
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
