"""How many trials of a game the forecast plays, against the same model as processes in SimPy.

    .venv/bin/python bench/forecast.py [--json] [--rounds 9]
    .venv/bin/python bench/forecast.py --agreement

Both draw their own times from the same parameters, and take turns within each round, so
that a busy machine slows both alike: a ratio is the median over rounds. Time is that of
this process alone, on one core. `linear_trials` is what ten times the trials cost, by ten;
`linear_clues` what twenty clues cost against ten, by two: 1 is in proportion.

`--agreement` times nothing: for twenty games it prints what both say from draws of their
own (mean and chance, with the standard error of their difference), and by how much they differ
at most, trial for trial, on equal draws.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable
from math import hypot, sqrt
from pathlib import Path
from statistics import median
from time import process_time

# One core: what NumPy could hand to others is not to be counted in.
os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

import numpy as np

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from boxwright.forecast.plan import Array, plan_of
from boxwright.forecast.reckoning import forecast, trials_of
from boxwright.forecast.trials import Times
from boxwright.forecast.trials import play as play_quick
from tests.forecast.games import drawn
from tests.forecast.paired import of_group, times_for
from tests.forecast.reference_simpy import play

TRIALS, TOLD = 10_000, 150
HEADS = (
    *("clues", "pupils", "hints"),
    *("SimPy's mean", "mean", "error"),
    *("SimPy's chance", "chance", "error"),
)
RATIO_GOAL, MS_GOAL, LINEAR_GOAL = 120.0, 50.0, 1.25
PARAMETERS = Parameters()


def game(clues: int) -> Network:
    """Return the game that is timed: four pupils, two hints."""
    return drawn(Dice("bench forecast"), clues, pupils=4, hints=2)


def quick(network: Network, trials: int) -> None:
    """Answer all that a forecast answers."""
    forecast(Asked(network, play_s=2400, trials=trials), PARAMETERS, Dice("bench"))


def told(network: Network) -> None:
    """Play some groups as processes, with draws of their own."""
    times = times_for(network, TOLD, "bench", PARAMETERS)
    for group in range(TOLD):
        play(network, PARAMETERS.rules, of_group(network, times, group))


def seconds(work: Callable[[], None]) -> float:
    """Return what `work` takes of this process's time."""
    start = process_time()
    work()
    return process_time() - start


def round_of(ten: Network, twenty: Network) -> dict[str, float]:
    """Time everything once."""
    return {
        "simpy": seconds(lambda: told(ten)) / TOLD,
        "ten": seconds(lambda: quick(ten, TRIALS)) / TRIALS,
        "many": seconds(lambda: quick(ten, 10 * TRIALS)) / TRIALS / 10,
        "twenty": seconds(lambda: quick(twenty, TRIALS)) / TRIALS,
    }


def measure(rounds: int) -> dict[str, float]:
    """Return what was measured; the first round only warms up."""
    ten, twenty = game(10), game(20)
    round_of(ten, twenty)
    runs = [round_of(ten, twenty) for _ in range(rounds)]
    return {
        "ratio_simpy": round(median(run["simpy"] / run["ten"] for run in runs), 1),
        "ms_10k": round(median(run["ten"] for run in runs) * 1e3 * TRIALS, 1),
        "simpy_trials_s": round(1 / median(run["simpy"] for run in runs)),
        "trials_s": round(1 / median(run["ten"] for run in runs)),
        "linear_trials": round(median(run["many"] / run["ten"] for run in runs), 2),
        "linear_clues": round(median(run["twenty"] / run["ten"] / 2 for run in runs), 2),
    }


def agreement() -> None:
    """Print a table of twenty games, in Markdown."""
    print(f"| {' | '.join(HEADS)} |")
    print("| --- " * len(HEADS) + "|")
    apart = 0.0
    for one in range(20):
        dice = Dice(f"agreement {one}")
        network = drawn(dice, 4 + one // 2, pupils=dice.between(1, 5), hints=dice.between(0, 4))
        print(_row(network, one))
        times = times_for(network, TOLD, f"equal {one}", PARAMETERS)
        quick_ends = play_quick(plan_of(network, PARAMETERS.rules), times).finish
        apart = max(apart, float(abs(quick_ends - _told_ends(network, times)).max()))
    print(f"\nOn equal draws, {20 * TOLD} games end at most {apart:.1e} s apart.")


def _told_ends(network: Network, times: Times) -> Array:
    played = (play(network, PARAMETERS.rules, of_group(network, times, at)) for at in range(TOLD))
    return np.array([one.finish for one in played], float)


def _row(network: Network, seed: int) -> str:
    slow = _told_ends(network, times_for(network, TOLD, f"other {seed}", PARAMETERS))
    found = trials_of(Asked(network, 0, trials=TRIALS), PARAMETERS, Dice("agreement")).finish
    limit = float(np.median(slow)) * 1.1
    chances = [float((one <= limit).mean()) for one in (slow, found)]
    mean_error = hypot(slow.std() / sqrt(TOLD), float(found.std()) / sqrt(TRIALS))
    chance_error = sqrt(sum(p * (1 - p) / n for p, n in zip(chances, (TOLD, TRIALS), strict=True)))
    cells = (
        len(network.tasks), network.pupils, network.hints,
        f"{slow.mean():.0f} s", f"{found.mean():.0f} s", f"{mean_error:.0f} s",
        f"{chances[0]:.2f}", f"{chances[1]:.2f}", f"{chance_error:.2f}",
    )  # fmt: skip
    return "| " + " | ".join(map(str, cells)) + " |"


def main() -> None:
    """Measure and print; exit 1 where a goal is missed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--rounds", type=int, default=9)
    options.add_argument("--agreement", action="store_true")
    chosen = options.parse_args()
    if chosen.agreement:
        agreement()
        return
    found = measure(chosen.rounds)
    most = {"ms_10k": MS_GOAL, "linear_trials": LINEAR_GOAL, "linear_clues": LINEAR_GOAL}
    goals = {"ratio_simpy": RATIO_GOAL} | most
    missed = found["ratio_simpy"] < RATIO_GOAL or any(found[it] >= goals[it] for it in most)
    if chosen.json:
        print(json.dumps({"bench": "forecast", "goals": goals} | found))
    else:
        for name, value in found.items():
            print(f"{name:16} {value:>12,}")
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
