"""What printing and reading back cost a page, beside a plain look at the same page.

    .venv/bin/python bench/paper.py [--json] [--pages 20] [--rounds 7]

Two sorts of pages: `prose` (a paragraph and eight numbers) and `squares` (a nonogram with
some hundred numbers). All steps take turns within a round, so that a busy machine slows
all alike; times are the median over rounds, of processor time. `plain` is pypdfium2 alone
drawing the finished page in grey, at the resolution that the read-back uses: `ratio` is
a step's time through that. The first print in a process also loads fonts: `first`.
`whole` is all that is printed for the demo game, read back: some fifteen small files, so
that what each file costs by itself shows.
"""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any

import pypdfium2

from boxwright.build import Asked, build
from boxwright.choose.marks import Mark
from boxwright.dice import Dice
from boxwright.paper.frame import Look
from boxwright.paper.page import Page, page_for
from boxwright.paper.printouts import PrintOut, print_outs
from boxwright.paper.readback import PPI, picture_of, read_back
from boxwright.paper.render import render
from boxwright.puzzles import shelf
from boxwright.puzzles.contract import Answer, Given

ROOT = Path(__file__).resolve().parent.parent
ROWS = ROOT / "tests" / "paper" / "kinds" / "rows.typ"
MARK = Mark(("kite", "bell", "oar"), ("moon", "gate", "leaf"))
GOAL_MS = {"read back": 5.0, "all": 15.0}
LOOK = Look()


def prose(number: int) -> Page:
    """Return a page of words and a few numbers."""
    text = "Some words of a longer text that a class may read to the end. " * 8
    sheet = {"numbers": list(range(number, number + 8)), "lines": [text]}
    return Page(
        ROWS, "sheet", sheet, {"task": text}, "Prose", "Eight squares.", MARK, prints=(text,)
    )


def squares(number: int) -> Page:
    """Return a page with a nonogram."""
    nonogram = shelf.kind("nonogram")
    code = Answer("digits", tuple(f"{number % 1000:03d}"))
    made = nonogram.make(code, nonogram.Options(), Given(), Dice(number))
    return page_for(nonogram, made.sheet, "sheet", title="Squares", lang="en", mark=MARK)


def look_at(pdf: bytes) -> None:
    """Draw every page in grey and do nothing with it."""
    document = pypdfium2.PdfDocument(pdf)
    for page in document:
        picture_of(page, PPI)
    document.close()


def look_at_all(found: Sequence[PrintOut]) -> None:
    """Draw every page of every file."""
    for one in found:
        look_at(one.pdf)


def took(work: Callable[[], Any]) -> float:
    """Return the milliseconds of processor time that `work` takes."""
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1000


def measure(make: Callable[[int], Page], count: int, rounds: int) -> dict[str, dict[str, float]]:
    """Return for each step its milliseconds a page and its ratio to a plain look."""
    sets = [[make(number) for number in range(at, at + count)] for at in range(rounds)]
    pdfs = [render(pages, LOOK) for pages in sets]
    assert [read_back(pdf, pages, LOOK) for pdf, pages in zip(pdfs, sets, strict=True)] == [
        []
    ] * rounds
    runs = [step_times(pages, pdf) for pages, pdf in zip(sets, pdfs, strict=True)]
    return {
        name: {
            "ms_a_page": round(median(run[name] for run in runs) / count, 3),
            "ratio": round(median(run[name] / run["plain"] for run in runs), 2),
        }
        for name in runs[0]
    }


def step_times(pages: Sequence[Page], pdf: bytes) -> dict[str, float]:
    """Time each step once."""
    changed = [*pages[1:], pages[0]]
    return {
        "plain": took(lambda: look_at(pdf)),
        "print": took(lambda: render(changed, LOOK)),
        "read back": took(lambda: read_back(pdf, pages, LOOK)),
    }


def whole(rounds: int) -> dict[str, dict[str, float]]:
    """Return what all print-outs of the demo game cost a page, and their ratio to a plain look."""
    built = build(Asked(ROOT / "examples" / "tide-mill"))
    runs = []
    for _ in range(rounds):
        start = time.process_time()
        found = print_outs(built.folder, built.editions, LOOK)
        cost = (time.process_time() - start) * 1000
        plain = took(partial(look_at_all, found))
        runs.append((cost / sum(one.pages for one in found), cost / plain))
    ms, ratio = (median(values) for values in zip(*runs, strict=True))
    return {"all": {"ms_a_page": round(ms, 3), "ratio": round(ratio, 2)}}


def main() -> None:
    """Measure and show."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--pages", type=int, default=20)
    parser.add_argument("--rounds", type=int, default=7)
    wish = parser.parse_args()
    first = took(lambda: render([prose(1)], LOOK))
    found = {make.__name__: measure(make, wish.pages, wish.rounds) for make in (prose, squares)}
    found["whole"] = whole(wish.rounds)
    if wish.json:
        print(
            json.dumps({"first_ms": round(first, 1), "goal_ms": GOAL_MS, "pages": found}, indent=1)
        )
        return
    print(f"first print in a process: {first:.0f} ms")
    for sort, steps in found.items():
        for name, values in steps.items():
            cost, ratio = values["ms_a_page"], values["ratio"]
            print(f"{sort:8} {name:10} {cost:7.2f} ms a page  {ratio:6.2f} x plain")


if __name__ == "__main__":
    main()
