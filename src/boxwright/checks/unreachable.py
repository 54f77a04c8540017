"""Everything in play can be had: opened, found, solved. What cannot is told with what it lacks.

Things that wait in a ring are told by their own check, and so are a lock without a clue
and one without a key; here stands what those bar.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.unlocking import waves
from boxwright.problems import Clash, Finding, Path, Problem

CODE = "reach.unreachable"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield one stop that names all boxes and items that pupils can never have."""
    game = edition.game
    had = {thing for wave in waves(ways_of(edition)) for thing in wave}
    lost = [id for id in (*game.boxes, *game.items) if id not in had]
    if not lost:
        return
    names = tuple(game.name_of(id) for id in lost)
    first, *rest = (about.where(*_path(edition, id)) for id in lost)
    problem = Problem.of(CODE, first, names=names, n=len(lost))
    yield Finding(problem, "stop", "computed", Clash(tuple(lost), "reach"), also=tuple(rest))


def _path(edition: Edition, id: str) -> Path:
    return ("boxes" if id in edition.game.boxes else "items", id)
