"""What it costs to strew pictures over a field, and to count them again, beside CP-SAT.

    .venv/bin/python bench/pictures.py [--json] [--rounds 5]

`strew` puts 40 boxes on the field of a count-sheet; `look` is the proof that no two of them
come too near and that all are whole; `sheet` is the making of a whole sheet for 9999 at the
hardest level, and `count` its solving. `cp-sat` places as many boxes of that size by
no-overlap in two dimensions (OR-Tools, one worker), where any placing will do: it need not
be spread by chance, which would cost more. All take turns within a round; times are medians
of processor time in milliseconds, ratios are that of CP-SAT through ours in the same run.
"""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Callable
from statistics import median
from typing import Any

from ortools.sat.python import cp_model

from boxwright.dice import Dice
from boxwright.puzzles import count_sheet
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.picture_field import HEIGHT, WIDTH
from boxwright.puzzles.picture_placing import GAP, Shape, size_for, strewn
from boxwright.puzzles.picture_reading import looked_at

BOXES = 40
GOAL_MS = 2.0  # for strewing 40
HALVES = 2  # CP-SAT knows whole numbers: half millimetres, which our sizes are


def by_cp_sat(seed: int) -> None:
    """Place the boxes, with their gaps, as a model of intervals."""
    side = int(HALVES * (size_for(BOXES) + GAP))
    model = cp_model.CpModel()
    spans: dict[str, list[Any]] = {"across": [], "down": []}
    for name, room in (("across", WIDTH), ("down", HEIGHT)):
        for at in range(BOXES):
            start = model.new_int_var(0, int(HALVES * (room + GAP)) - side, f"{name} {at}")
            spans[name].append(model.new_fixed_size_interval_var(start, side, f"{name} {at}"))
    model.add_no_overlap_2d(spans["across"], spans["down"])
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    assert solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)


def took(work: Callable[[], Any]) -> float:
    """Return the milliseconds of processor time that `work` takes."""
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1000


def times(seed: int) -> dict[str, float]:
    """Time each step once."""
    side = size_for(BOXES)
    shapes = [Shape(side, side)] * BOXES
    asked = Answer("digits", tuple("9999"))
    given = Given(level="hardest")
    made = count_sheet.make(asked, count_sheet.Options(), given, Dice(seed))
    return {
        "strew": took(lambda: strewn(shapes, Dice(seed))),
        "look": took(lambda: looked_at(made.sheet.sheet)),
        "sheet": took(
            lambda: count_sheet.make(asked, count_sheet.Options(), given, Dice(f"sheet {seed}"))
        ),
        "count": took(lambda: list(count_sheet.solve(*made))),
        "cp-sat": took(lambda: by_cp_sat(seed)),
    }


def main() -> None:
    """Measure and show."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--rounds", type=int, default=5)
    wish = parser.parse_args()
    times(0)
    runs = [times(seed) for seed in range(1, wish.rounds + 1)]
    found = {
        name: {
            "ms": round(median(run[name] for run in runs), 3),
            "ratio": round(median(run["cp-sat"] / run[name] for run in runs), 1),
        }
        for name in runs[0]
    }
    if wish.json:
        print(json.dumps({"boxes": BOXES, "goal_ms": GOAL_MS, "steps": found}, indent=1))
        return
    for name, values in found.items():
        print(f"{name:7} {values['ms']:8.2f} ms   CP-SAT takes {values['ratio']:8.1f} times that")


if __name__ == "__main__":
    main()
