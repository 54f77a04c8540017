"""How the things of a game hang together: what opens what, what leads where, what needs what."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from boxwright.frozen import frozen_value
from boxwright.game.arranged import ArrangedGame

How = Literal[
    "closed",  # the box that a lock closes
    "tells-code",  # a clue that leads to a lock's code
    "opens",  # an item that opens a lock
    "leads-to",  # what a clue leads to
    "needed",  # an item that a clue needs
    "carries",  # a clue on whose sheet another is drawn
    "carried",  # a clue that is drawn on this one's sheet
    "opened",  # a lock that an item opens
    "tells-place",  # a clue that leads to where an item lies
    "needs",  # a clue that needs an item
    "lets-in",  # a clue or an item for a lock of a box
]


@frozen_value
class Tie:
    """Another thing, and what it is to the one that was asked for."""

    id: str
    how: How


def ties(game: ArrangedGame, id: str) -> tuple[Tie, ...]:
    """Return what the thing `id` hangs together with, each pair once, nearest first."""
    found = (*_of_lock(game, id), *_of_box(game, id), *_of_clue(game, id), *_of_item(game, id))
    return tuple(dict.fromkeys(found))


def _of_lock(game: ArrangedGame, id: str) -> Iterator[Tie]:
    if id in game.locks:
        lock = game.locks[id]
        yield Tie(lock.closes, "closed")
        yield from (Tie(clue, "tells-code") for clue in _giving(game, id))
        if lock.opened_by is not None:
            yield Tie(lock.opened_by, "opens")


def _of_box(game: ArrangedGame, id: str) -> Iterator[Tie]:
    for lock, one in game.locks.items():
        if id in game.boxes and one.closes == id:
            yield from (Tie(clue, "lets-in") for clue in _giving(game, lock))
            if one.opened_by is not None:
                yield Tie(one.opened_by, "lets-in")


def _of_clue(game: ArrangedGame, id: str) -> Iterator[Tie]:
    if id in game.clues:
        clue = game.clues[id]
        yield Tie(clue.gives, "leads-to")
        yield from (Tie(item, "needed") for item in clue.needs)
        if clue.on is not None:
            yield Tie(clue.on, "carries")
        yield from (Tie(other, "carried") for other, one in game.clues.items() if one.on == id)


def _of_item(game: ArrangedGame, id: str) -> Iterator[Tie]:
    if id in game.items:
        yield from (Tie(lock, "opened") for lock, one in game.locks.items() if one.opened_by == id)
        yield from (Tie(clue, "tells-place") for clue in _giving(game, id))
        yield from (Tie(clue, "needs") for clue, one in game.clues.items() if id in one.needs)


def _giving(game: ArrangedGame, id: str) -> Iterator[str]:
    return (clue for clue, one in game.clues.items() if one.gives == id)
