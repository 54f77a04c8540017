"""Nothing may wait for itself, by however long a way.

Assumes that pupils come by things only as the game intends; see `choose.ways`.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About, key_inside
from boxwright.checks.reach import all_ways, path_of, sort_of
from boxwright.choose.edition import Edition
from boxwright.game.unlocking import circles
from boxwright.problems import Arg, Cycle, Finding, Message, Problem, say

CODE = "reach.locked-behind-itself"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each ring of things that wait for one another, told as a path."""
    plainer = [{lock, key} for lock, key, _ in key_inside.found(edition.game)]
    for ring in circles(all_ways(edition, about)):
        if any(pair <= set(ring) for pair in plainer):
            continue  # told more plainly by its own check
        steps = zip(ring, (*ring[1:], ring[0]), strict=True)
        told = tuple(_step(edition, thing, need) for thing, need in steps)
        first, *rest = (about.where(*path_of(edition, thing)) for thing in ring)
        problem = Problem.of(CODE, first, steps=told, n=len(ring))
        yield Finding(problem, "stop", "computed", Cycle(ring), also=tuple(rest))


def _step(edition: Edition, thing: str, need: str) -> Message:
    """Say why `thing` waits for `need`."""
    sorts = f"{sort_of(edition.game, thing)}-{sort_of(edition.game, need)}"
    return say(f"reach.step-{sorts}", thing=_said(edition, thing), need=_said(edition, need))


def _said(edition: Edition, thing: str) -> Arg:
    clue, _, part = thing.partition("/")
    if not part:
        return edition.game.name_of(thing)
    sheet = edition.sheets.get(clue)
    if sheet is None or len(sheet.parts) == 1:
        return say("reach.sheet", clue=clue)
    return say("reach.part", clue=clue, part=part)
