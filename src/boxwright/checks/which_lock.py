"""Where several sheets in hand could be for any of several locks, something must say which.

Looked for: clues that are solved at one time, whose locks can be tried then, and whose
answers the locks of the others can show. A wrong try costs time, not the game, so this is
a note, one for all that can be mixed up.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from boxwright.checks import About
from boxwright.checks.reach import when
from boxwright.checks.sheets import Opened, code_of, opened
from boxwright.choose.edition import Edition
from boxwright.problems import Clash, Finding, Problem

CODE = "clue.which-lock"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for all clues that are solved at one time for like locks."""
    for cluster in _clusters(edition, about):
        clues = tuple(one.clue for one in cluster)
        locks = tuple(dict.fromkeys(one.gives for one in cluster))
        first, *rest = (about.where("clues", clue) for clue in clues)
        problem = Problem.of(CODE, first, clues=clues, locks=locks, n=len(clues))
        yield Finding(problem, "note", "computed", Clash(locks, "code"), also=tuple(rest))


def _clusters(edition: Edition, about: About) -> list[list[Opened]]:
    """Return the sheets that can be mixed up, each with all that hang together with it."""
    sheets = [one for one in opened(edition, about) if one.code is not None]
    clusters: list[list[Opened]] = []
    for one, other in combinations(sheets, 2):
        if not _alike(edition, about, one, other):
            continue
        mine = [cluster for cluster in clusters if one in cluster or other in cluster]
        joined = [sheet for cluster in mine for sheet in cluster]
        joined += [sheet for sheet in (one, other) if sheet not in joined]
        clusters = [cluster for cluster in clusters if cluster not in mine] + [joined]
    return clusters


def _alike(edition: Edition, about: About, one: Opened, other: Opened) -> bool:
    if one.gives == other.gives:
        return False
    at = when(edition, about)
    if at.get(one.clue) is None or at.get(one.clue) != at.get(other.clue):
        return False
    return all(
        _in_reach(edition, about, lock, at[one.clue])
        and sheet.answer is not None
        and code_of(about.device(lock), sheet.answer) is not None
        for lock, sheet in ((one.gives, other), (other.gives, one))
    )


def _in_reach(edition: Edition, about: About, lock: str, wave: int) -> bool:
    """Tell whether a lock can be tried once the things of `wave` are had."""
    place = edition.game.boxes[edition.game.locks[lock].closes].place
    at = when(edition, about)
    return place not in edition.game.boxes or at.get(place, wave + 1) <= wave
