"""No key lies in the box that it opens, however deep inside."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.other_places import elsewhere, where_lies
from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedGame, boxes_around
from boxwright.problems import Cycle, Finding, Problem

CODE = "reach.key-inside"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each key that its own box holds."""
    game = edition.game
    for id, key, boxes in found(game):
        box = game.locks[id].closes
        problem = Problem.of(
            CODE,
            about.where("items", key, "place"),
            edit=elsewhere(edition, about, where_lies(edition, key)),
            key=game.name_of(key),
            lock=id,
            box=game.name_of(box),
        )
        also = (about.where("locks", id, "opened_by"),)
        yield Finding(problem, "stop", "computed", Cycle((box, id, key, *boxes)), also=also)


def found(game: ArrangedGame) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Yield each such lock with its key, and the boxes between the key and the lock's box."""
    for id, lock in game.locks.items():
        if lock.opened_by is None:
            continue
        around = boxes_around(game, game.items[lock.opened_by].place)
        if lock.closes in around:
            yield id, lock.opened_by, around[: around.index(lock.closes)]
