"""No key lies in the box that it opens, however deep inside."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.arranged import boxes_around
from boxwright.problems import Cycle, Finding, Problem

CODE = "reach.key-inside"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each key that its own box holds."""
    game = edition.game
    for id, lock in game.locks.items():
        key = lock.opened_by
        if key is None or lock.closes not in boxes_around(game, game.items[key].place):
            continue
        problem = Problem.of(
            CODE,
            about.where("items", key, "place"),
            key=game.name_of(key),
            lock=id,
            box=game.name_of(lock.closes),
        )
        also = (about.where("locks", id, "opened_by"),)
        yield Finding(problem, "stop", "computed", Cycle((lock.closes, id, key)), also=also)
