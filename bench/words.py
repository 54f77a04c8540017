"""How fast the index of words answers, against plain sets in the same run.

    python bench/words.py [--json]

A set for each wheel, looked into letter by letter, is the obvious way; the index answers
for all words at once. Both are given the same words and wheel sets, drawn from one seed,
and must agree. The count of words is timed, then listing the first twenty.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from itertools import islice
from statistics import median
from time import perf_counter

from boxwright.dice import Dice
from boxwright.game.mechanisms import Device, device_of, parse_lock
from boxwright.game.spelling import WordIndex
from boxwright.game.wordlists import common_words
from boxwright.problems import Where

WHEELS, FACES, SETS, ROUNDS = 5, 10, 40, 9


def wheel_sets() -> list[Device]:
    """Return wheel sets of ten letters each, the letters of words so that words fit."""
    words = [word for word in common_words() if len(word) == WHEELS]
    dice = Dice("bench words")
    devices = []
    for _ in range(SETS):
        wheels = []
        for at in range(WHEELS):
            letters: dict[str, None] = {}
            while len(letters) < FACES:
                letters[dice.pick(words)[at]] = None
            wheels.append("".join(letters))
        where = Where("bench")
        devices.append(device_of(parse_lock("letter-wheels:" + ",".join(wheels), where), where))
    return devices


def by_sets(words: tuple[str, ...], device: Device) -> int:
    """Count words the obvious way."""
    a, b, c, d, e = (set(faces) for faces in device.positions)
    return sum(
        len(w) == WHEELS and w[0] in a and w[1] in b and w[2] in c and w[3] in d and w[4] in e
        for w in words
    )


def timed(work: Callable[[Device], object], devices: list[Device]) -> float:
    """Return the median over rounds of the milliseconds for one wheel set."""
    spent = []
    for _ in range(ROUNDS):
        start = perf_counter()
        for device in devices:
            work(device)
        spent.append((perf_counter() - start) * 1000 / len(devices))
    return median(spent)


def measure() -> dict[str, float | int]:
    """Measure all ways in one run."""
    start = perf_counter()
    words = common_words()
    loaded = perf_counter()
    index = WordIndex(words, WHEELS, WHEELS)
    indexed = perf_counter()
    devices = wheel_sets()
    assert all(index.count(device) == by_sets(words, device) for device in devices)
    fitting = tuple(word for word in words if len(word) == WHEELS)
    plain = timed(lambda device: by_sets(words, device), devices)
    prefiltered = timed(lambda device: by_sets(fitting, device), devices)
    bits = timed(index.count, devices)
    first = timed(lambda device: list(islice(index.shown(device), 20)), devices)
    everything = timed(lambda device: list(index.shown(device)), devices)
    return {
        "words": len(words),
        "of_five_letters": len(fitting),
        "median_spelled": int(median(index.count(device) for device in devices)),
        "load_ms": round((loaded - start) * 1000, 1),
        "index_ms": round((indexed - loaded) * 1000, 2),
        "sets_ms": round(plain, 4),
        "sets_prefiltered_ms": round(prefiltered, 4),
        "index_count_ms": round(bits, 4),
        "index_first_20_ms": round(first, 4),
        "index_all_ms": round(everything, 4),
        "ratio": round(plain / bits, 1),
        "ratio_prefiltered": round(prefiltered / bits, 1),
    }


def main() -> None:
    """Print what was measured."""
    found = measure()
    if "--json" in sys.argv[1:]:
        print(json.dumps({"bench": "words"} | found))
    else:
        for name, value in found.items():
            print(f"{name:20} {value:>12,}")


if __name__ == "__main__":
    main()
