"""What one clue takes comes into hand together: who has but half of it guesses at the rest.

A part, or an item that a clue needs, counts as late where locks must be opened, one after
the other, between the first and the last. It may be meant (a key found at last), so this
is a note.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from boxwright.checks import About
from boxwright.checks.reach import path_of, waves_of
from boxwright.choose.edition import Edition
from boxwright.choose.ways import part_name
from boxwright.problems import Count, Finding, Path, Problem

CODE = "part.late"
LOCKS_BETWEEN = 2


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each clue whose last piece comes two rounds of locks after its first."""
    opened = _locks_opened_before(edition, about)
    for id, sheet in edition.sheets.items():
        things = (*(part_name(id, part) for part in sheet.parts), *edition.game.clues[id].needs)
        had = {thing: opened[thing] for thing in things if thing in opened}
        if not had:
            continue
        last = max(had, key=had.__getitem__)
        between = had[last] - min(had.values())
        if between >= LOCKS_BETWEEN:
            yield _finding(edition, about, id, last, between)


def _finding(edition: Edition, about: About, clue: str, last: str, between: int) -> Finding:
    item = last in edition.game.items
    name = edition.game.name_of(last) if item else last.partition("/")[2]
    where = about.where(*_path(edition, last))
    problem = Problem.of(f"{CODE}-item" if item else CODE, where, clue=clue, name=name, n=between)
    also = (about.where("clues", clue),)
    return Finding(problem, "note", "computed", Count(between, LOCKS_BETWEEN - 1), also=also)


def _path(edition: Edition, thing: str) -> Path:
    path = path_of(edition, thing)
    return (*path, "place") if thing in edition.game.items else path


def _locks_opened_before(edition: Edition, about: About) -> Mapping[str, int]:
    """Return for each thing how many waves with an opened lock come before it."""
    count = 0
    found: dict[str, int] = {}
    for wave in waves_of(edition, about):
        found |= dict.fromkeys(wave, count)
        count += any(thing in edition.game.locks for thing in wave)
    return found
