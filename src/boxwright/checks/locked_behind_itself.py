"""Nothing may wait for itself, by however long a way.

Assumes that pupils come by things only as the game intends; see `choose.ways`.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.arranged import ArrangedGame
from boxwright.game.unlocking import circles
from boxwright.problems import Cycle, Finding, Message, Path, Problem, say

CODE = "reach.locked-behind-itself"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each ring of things that wait for one another, told as a path."""
    for ring in circles(ways_of(edition)):
        if _is_key_inside(edition.game, ring):
            continue  # told more plainly by its own check
        steps = zip(ring, (*ring[1:], ring[0]), strict=True)
        told = tuple(_step(edition.game, thing, need) for thing, need in steps)
        first, *rest = (about.where(*_path(edition.game, thing)) for thing in ring)
        problem = Problem.of(CODE, first, steps=told, n=len(ring))
        yield Finding(problem, "stop", "computed", Cycle(ring), also=tuple(rest))


def _is_key_inside(game: ArrangedGame, ring: tuple[str, ...]) -> bool:
    locks = [game.locks[thing] for thing in ring if thing in game.locks]
    return len(locks) == 1 and locks[0].opened_by is not None and not set(ring) & set(game.clues)


def _step(game: ArrangedGame, thing: str, need: str) -> Message:
    """Say why `thing` waits for `need`."""
    sorts = f"{_sort(game, thing)}-{_sort(game, need)}"
    return say(f"reach.step-{sorts}", thing=_said(game, thing), need=_said(game, need))


def _sort(game: ArrangedGame, thing: str) -> str:
    for sort in ("boxes", "locks", "items", "clues"):
        if thing in getattr(game, sort):
            return sort
    return "parts"


def _said(game: ArrangedGame, thing: str) -> str:
    clue, _, _ = thing.partition("/")
    return game.name_of(clue)


def _path(game: ArrangedGame, thing: str) -> Path:
    clue, _, part = thing.partition("/")
    if not part:
        return (_sort(game, thing), thing)
    source = game.clues[clue].source.path
    return (*source, "place") if part == "sheet" else (*source, "parts", part)
