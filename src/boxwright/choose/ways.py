"""How each thing of an edition is come by: the graph that proofs of reachability rest on.

Things are named by their ids: a box (open), a lock (open), an item (in hand), a clue
(solved), and `CLUE/PART` for a printed part in hand. An item that a clue leads to is
taken to be found by that clue alone, not by chance.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedClue, ArrangedGame
from boxwright.game.unlocking import Way


def part_name(clue: str, part: str) -> str:
    """Return the name of a printed part."""
    return f"{clue}/{part}"


def ways_of(edition: Edition) -> tuple[Way, ...]:
    """Return every way to come by a thing of `edition`, in the game's own order."""
    game = edition.game
    return tuple(
        Way(thing, needs)
        for one in (_boxes(game), _locks(game), _items(game), _clues(edition))
        for thing, needs in one
    )


_Needs = Iterator[tuple[str, frozenset[str]]]


def _boxes(game: ArrangedGame) -> _Needs:
    for id, box in game.boxes.items():
        locks = (lock for lock, one in game.locks.items() if one.closes == id)
        yield id, frozenset(locks) | _lies_in(game, box.place)


def _locks(game: ArrangedGame) -> _Needs:
    for id, lock in game.locks.items():
        near = _lies_in(game, game.boxes[lock.closes].place)
        if lock.opened_by is not None:
            yield id, near | {lock.opened_by}
        for clue in _leading_to(game, id):
            yield id, near | {clue}


def _items(game: ArrangedGame) -> _Needs:
    for id, item in game.items.items():
        yield from _found(game, id, item.place)


def _clues(edition: Edition) -> _Needs:
    game = edition.game
    for id, clue in game.clues.items():
        sheet = edition.sheets.get(id)
        parts = dict(sheet.parts) if sheet is not None else {"sheet": clue.place}
        yield id, frozenset(part_name(id, part) for part in parts) | frozenset(clue.needs)
        for part, place in parts.items():
            for thing, needs in _found(game, part_name(id, part), place):
                yield thing, needs | _host(edition, clue)


def _host(edition: Edition, clue: ArrangedClue) -> frozenset[str]:
    """A sheet that is drawn on another's comes with that one."""
    if clue.on is None or clue.on not in edition.sheets:
        return frozenset()
    return frozenset(part_name(clue.on, part) for part in edition.sheets[clue.on].parts)


def _found(game: ArrangedGame, thing: str, place: str) -> _Needs:
    """The ways to a thing that lies somewhere: led there if clues lead, else seen."""
    inside = _lies_in(game, place)
    leading = [*_leading_to(game, thing), *_leading_to(game, place)]
    for clue in leading:
        yield thing, inside | {clue}
    if not leading:
        yield thing, inside


def _lies_in(game: ArrangedGame, place: str) -> frozenset[str]:
    return frozenset({place}) if place in game.boxes else frozenset()


def _leading_to(game: ArrangedGame, id: str) -> list[str]:
    return [clue for clue, one in game.clues.items() if one.gives == id]
