"""The parts of one sheet come into hand together: who has but half of it guesses at the rest.

A part counts as late where a lock must be opened between the first part and the last. It
may be meant (a key found at last), so this is a note.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.ways import part_name, ways_of
from boxwright.game.unlocking import waves
from boxwright.problems import Count, Finding, Path, Problem

CODE = "part.late"
LOCKS_BETWEEN = 2


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each part that comes two opened locks or more after the first one."""
    opened = _locks_opened_before(edition)
    for id, sheet in edition.sheets.items():
        when = {part: opened.get(part_name(id, part)) for part in sheet.parts}
        had = {part: count for part, count in when.items() if count is not None}
        if not had:
            continue
        last = max(had, key=had.__getitem__)
        between = had[last] - min(had.values())
        if between >= LOCKS_BETWEEN:
            path = _path(edition, id, last)
            problem = Problem.of(CODE, about.where(*path), clue=id, part=last, n=between)
            yield Finding(problem, "note", "computed", Count(between, 0))


def _locks_opened_before(edition: Edition) -> dict[str, int]:
    """Return for each thing how many waves with an opened lock come before it."""
    count = 0
    found: dict[str, int] = {}
    for wave in waves(ways_of(edition)):
        found |= dict.fromkeys(wave, count)
        count += any(thing in edition.game.locks for thing in wave)
    return found


def _path(edition: Edition, clue: str, part: str) -> Path:
    source = edition.game.clues[clue].source.path
    return (*source, "parts", part)
