"""A rough plan of a game: when each thing is had, in seconds from the start of play.

Each clue takes a part of its kind's band by its level; finding, reading and opening take
nothing. Rings, told elsewhere, count as nothing.
"""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.checks import About
from boxwright.checks.reach import all_ways
from boxwright.choose.edition import Edition
from boxwright.game.model import Level
from boxwright.game.unlocking import Way
from boxwright.puzzles.shelf import kind

MINUTE = 60
# Assumption, no source: where in a kind's band a sheet of each level lies.
SHARES = {"easier": 0.2, "ordinary": 0.4, "harder": 0.6, "hardest": 0.8}


def solving_s(edition: Edition, about: About) -> Mapping[str, int]:
    """Return what each clue takes, in seconds."""
    return {id: sheet_s(clue.kind, clue.level) for id, clue in edition.game.clues.items()}


def sheet_s(kind_id: str, level: Level) -> int:
    """Return what a sheet of a kind takes at a level, in seconds."""
    low, high = kind(kind_id).FACTS.band_minutes
    return round((low + (high - low) * SHARES[level]) * MINUTE)


def least_s(edition: Edition, lock: str) -> int | None:
    """Return the least seconds of the quickest clue for `lock`; None without a clue."""
    clues = edition.game.clues.values()
    least = [kind(clue.kind).FACTS.band_minutes[0] for clue in clues if clue.gives == lock]
    return min(least) * MINUTE if least else None


def times_of(edition: Edition, about: About) -> Mapping[str, int]:
    """Return when each thing is had, by its quickest way, if all is done side by side."""
    return about.once(edition, _times)


def _times(edition: Edition, about: About) -> Mapping[str, int]:
    costs = solving_s(edition, about)
    ways: dict[str, list[Way]] = {}
    for way in all_ways(edition, about):
        ways.setdefault(way.thing, []).append(way)
    known: dict[str, int] = {}

    def ready(thing: str, above: frozenset[str]) -> int:
        if thing in above:
            return 0
        if thing not in known:
            deeper = above | {thing}
            starts = [
                max((ready(need, deeper) for need in way.needs), default=0)
                for way in ways.get(thing, ())
            ]
            known[thing] = min(starts, default=0) + costs.get(thing, 0)
        return known[thing]

    return {thing: ready(thing, frozenset()) for thing in ways}
