"""How fast and how soundly every kind of sheet is made and solved.

    python bench/kinds.py [--json] [--codes N] [KIND ...]

For each kind: random requests (answer, options, level, ages), each made and solved. `wrong`
counts sheets whose first answer is not the one asked for, `double` those with another. A
time is that of this process's processor, in milliseconds, median and 95th percentile; the
ratio is the time of CP-SAT (one worker) for the same proof (one picture, and no second) over
that of our `solve`, where a model of the kind is natural. Compare ratios, not times. The
teacher's own pages are left out: nothing on them is made or solved.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from types import ModuleType
from typing import Any

from boxwright.dice import Dice
from boxwright.game.model import LEVELS
from boxwright.puzzles import shelf
from boxwright.puzzles.contract import Made

ROOT = Path(__file__).resolve().parent.parent
# Some installed packages bring a folder `tests` of their own; ours is meant.
sys.modules["tests"] = ModuleType("tests")
sys.modules["tests"].__path__ = [str(ROOT / "tests")]

from tests.puzzles.owed import Trial  # noqa: E402
from tests.puzzles.second_solver import Model  # noqa: E402

Rival = Callable[[Made], Any]


def nonogram_by_cp_sat(made: Made) -> None:
    """Find the picture, and show that there is no second."""
    squares = made.sheet.sheet
    model = Model(squares.rows, squares.columns)
    assert model.next() is not None
    assert model.next() is None


RIVALS: dict[str, Rival] = {"nonogram": nonogram_by_cp_sat}
RIVAL_SHEETS = 100


def timed(work: Callable[[], Any]) -> tuple[Any, float]:
    """Return what `work` gives, and the milliseconds of processor that it took."""
    start = time.process_time()
    result = work()
    return result, 1000 * (time.process_time() - start)


def spread(times: list[float]) -> dict[str, float]:
    """Return median and 95th percentile."""
    ordered = sorted(times)
    return {
        "median_ms": round(median(ordered), 2),
        "p95_ms": round(ordered[int(0.95 * len(ordered))], 2),
    }


def measure(name: str, codes: int) -> dict[str, Any]:
    """Make and solve `codes` random sheets of one kind, the levels in turn."""
    trial = Trial(name, shelf.kind(name))
    wrong = double = 0
    making: dict[str, list[float]] = {level: [] for level in LEVELS}
    solving, sheets = [], []
    for n in range(codes):
        level = LEVELS[n % len(LEVELS)]
        request = trial.request(f"bench {n}", level)
        made, took = timed(lambda request=request: trial.make(request))
        making[level].append(took)
        found, took = timed(lambda made=made: list(trial.kind.solve(*made)))
        solving.append(took)
        answers = [solution.answer for solution in found]
        wrong += answers[:1] != [request.answer]
        double += len(answers) > 1
        sheets.append(made)
    return {
        "kind": name,
        "made": codes,
        "solved": codes - wrong,
        "wrong": wrong,
        "double": double,
        "make": spread([time for times in making.values() for time in times]),
        "make_by_level": {level: spread(times) for level, times in making.items() if times},
        "solve": spread(solving),
        "cp_sat": against(name, sheets, solving),
    }


def against(name: str, sheets: list[Made], ours: list[float]) -> dict[str, float] | None:
    """Time the rival on sheets drawn from those made, if there is one."""
    rival = RIVALS.get(name)
    if rival is None:
        return None
    chosen = Dice(name).shuffled(range(len(sheets)))[:RIVAL_SHEETS]
    rival(sheets[0])
    theirs = [timed(lambda n=n: rival(sheets[n]))[1] for n in chosen]
    ratio = median(theirs) / median(ours[n] for n in chosen)
    return spread(theirs) | {"sheets": len(chosen), "ratio_to_solve": round(ratio, 2)}


def proven() -> list[str]:
    """Return the kinds of which something is made and solved."""
    return [name for name, kind in shelf.all_kinds() if not kind.FACTS.own]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("kinds", nargs="*", metavar="KIND")
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--codes", type=int, default=500, metavar="N")
    asked = parser.parse_args()
    unknown = sorted(set(asked.kinds) - set(proven()))
    if unknown:
        parser.error(f"{', '.join(unknown)}: expected some of {', '.join(proven())}")
    found = [measure(name, asked.codes) for name in asked.kinds or proven()]
    if asked.json:
        print(json.dumps(found, indent=1))
        return
    for row in found:
        print(f"{row['kind']}: made {row['made']}, wrong {row['wrong']}, double {row['double']}")
        for key in ("make", "solve", "cp_sat", "make_by_level"):
            print(f"  {key}: {row[key]}")


if __name__ == "__main__":
    main()
