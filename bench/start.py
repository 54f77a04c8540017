"""What a command costs before it does anything, as a multiple of an empty Python.

    .venv/bin/python bench/start.py [--json] [--rounds 15]

All commands take turns within each round, so that a busy machine slows all alike; a
ratio is the median over rounds of command time through the same round's empty Python.
"""

from __future__ import annotations

import argparse
import json
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "examples" / "tide-mill"
GOALS = {"help": 6.0}


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


def seconds(command: list[str], work: Path) -> float:
    """Run `command` in `work` and return its wall time; it must end well."""
    start = time.perf_counter()
    subprocess.run(command, cwd=work, check=True, capture_output=True)
    return time.perf_counter() - start


def measure(rounds: int) -> dict[str, dict[str, float]]:
    """Return for each command its median milliseconds and ratio to the empty Python."""
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        timed = commands(work)
        for command in timed.values():
            seconds(command, work)
        runs = [{name: seconds(line, work) for name, line in timed.items()} for _ in range(rounds)]
    return {
        name: {
            "ms": round(median(run[name] for run in runs) * 1000, 1),
            "times_empty": round(median(run[name] / run["empty"] for run in runs), 2),
        }
        for name in timed
    }


def main() -> None:
    """Measure and print; exit 1 where a goal is missed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--rounds", type=int, default=15)
    chosen = options.parse_args()
    found = measure(chosen.rounds)
    missed = [name for name, goal in GOALS.items() if found[name]["times_empty"] > goal]
    if chosen.json:
        print(json.dumps({"commands": found, "goals": GOALS, "missed": missed}, indent=1))
    else:
        for name, values in found.items():
            print(f"{name:8}{values['ms']:9.1f} ms {values['times_empty']:7.2f} x an empty Python")
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
