"""How many trials of a game the forecast plays, against the same model as processes in SimPy.

    .venv/bin/python bench/forecast.py [--json] [--rounds 9]

Both draw their own times from the same parameters, and take turns within each round, so
that a busy machine slows both alike: a ratio is the median over rounds. Time is that of
this process alone, on one core. `linear_trials` is what ten times the trials cost, by ten;
`linear_clues` what twenty clues cost against ten, by two: 1 is in proportion.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import process_time

# One core: what NumPy could hand to others is not to be counted in.
os.environ["OMP_NUM_THREADS"] = os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from boxwright.dice import Dice
from boxwright.forecast.answers import Asked, forecast
from boxwright.forecast.network import Network
from boxwright.forecast.parameters import Parameters
from tests.forecast.games import drawn
from tests.forecast.paired import of_group, times_for
from tests.forecast.reference_simpy import play

TRIALS, TOLD = 10_000, 150
RATIO_GOAL, MS_GOAL = 120.0, 50.0
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


def main() -> None:
    """Measure and print; exit 1 where a goal is missed."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--json", action="store_true")
    options.add_argument("--rounds", type=int, default=9)
    chosen = options.parse_args()
    found = measure(chosen.rounds)
    goals = {"ratio_simpy": RATIO_GOAL, "ms_10k": MS_GOAL}
    missed = found["ratio_simpy"] < RATIO_GOAL or found["ms_10k"] >= MS_GOAL
    if chosen.json:
        print(json.dumps({"bench": "forecast", "goals": goals} | found))
    else:
        for name, value in found.items():
            print(f"{name:16} {value:>12,}")
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
