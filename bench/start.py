"""What a command costs, as a multiple of an empty Python plus so much a page.

    .venv/bin/python bench/start.py [--json] [--rounds 15]

All commands take turns within each round, so that a busy machine slows all alike; a
ratio is the median over rounds of command time through the same round's empty Python.
Compiled modules are kept, in the bench's own folder, as they are after a first start.
A page is one that the command makes, judges or prints; what it may cost on top is in
milliseconds, so that part of a goal depends on the machine.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "examples" / "tide-mill"
TIMES_EMPTY = 30.0
MS_A_PAGE = 15.0


def commands(work: Path) -> dict[str, list[str]]:
    """The commands that are timed, by name; they write into `work` alone."""
    boxwright = [sys.executable, "-m", "boxwright"]
    demo = work / "demo"
    shutil.copytree(DEMO, demo, ignore=shutil.ignore_patterns("editions", ".history"))
    make = [*boxwright, "make", "nonogram", "--lock", "number-wheels:3", "--code", "427"]
    return {
        "empty": [sys.executable, "-c", "pass"],
        "help": [*boxwright, "--help"],
        "kinds": [*boxwright, "kinds"],
        "lock": [*boxwright, "lock", "number-wheels:3", "--code", "427"],
        "make": [*make, "--out", str(work / "sheet.pdf")],
        "build": [*boxwright, "build", str(demo)],
        "check": [*boxwright, "check", str(demo)],
        "print": [*boxwright, "print", str(demo), "--out", str(work / "out")],
    }


def environment(work: Path) -> dict[str, str]:
    """This process's environment, where modules stay compiled."""
    kept = {key: text for key, text in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"PYTHONPYCACHEPREFIX": str(work / "compiled")}


def seconds(command: list[str], work: Path) -> float:
    """Run `command` in `work` and return its wall time; it must end well."""
    start = time.perf_counter()
    subprocess.run(command, cwd=work, env=environment(work), check=True, capture_output=True)
    return time.perf_counter() - start


def count(files: list[Path]) -> int:
    """Return the number of pages of some PDFs."""
    import pypdfium2

    return sum(len(pypdfium2.PdfDocument(file)) for file in files)


def pages(out: Path) -> dict[str, int]:
    """How many pages each command makes, judges or prints."""
    sheets = count(list(out.glob("*-sheets.pdf")))
    return {"make": 1, "build": sheets, "check": sheets, "print": count(list(out.glob("*.pdf")))}


def measure(rounds: int) -> dict[str, dict[str, float]]:
    """Return for each command its pages, milliseconds, ratio to the empty Python, and goal."""
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        timed = commands(work)
        for command in timed.values():
            seconds(command, work)
        runs = [{name: seconds(line, work) for name, line in timed.items()} for _ in range(rounds)]
        of = pages(work / "out")
    empty = median(run["empty"] for run in runs)
    return {name: summary(name, runs, empty, of.get(name, 0)) for name in timed}


def summary(name: str, runs: list[dict[str, float]], empty: float, pages: int) -> dict[str, float]:
    """Return what was measured of one command; `goal` is the most times an empty Python."""
    goal = {"empty": 1.0, "help": 6.0}.get(name, TIMES_EMPTY + pages * MS_A_PAGE / 1000 / empty)
    return {
        "pages": pages,
        "ms": round(median(run[name] for run in runs) * 1000, 1),
        "times_empty": round(median(run[name] / run["empty"] for run in runs), 2),
        "goal": round(goal, 2),
    }


def main() -> None:
    """Measure and print; exit 1 where a goal is missed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--rounds", type=int, default=15)
    chosen = options.parse_args()
    found = measure(chosen.rounds)
    missed = [name for name, of in found.items() if of["times_empty"] > of["goal"]]
    if chosen.json:
        print(json.dumps({"commands": found, "missed": missed}, indent=1))
    else:
        for name, of in found.items():
            print(
                f"{name:8}{of['pages']:4} pages {of['ms']:9.1f} ms {of['times_empty']:7.2f} times "
                f"an empty Python (at most {of['goal']:.2f})"
            )
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
