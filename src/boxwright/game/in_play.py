"""What is in play once versions are chosen, and where versions move it.

Optional things are in play where a version adds them; a version that drops a thing goes
before one that adds it. A clue that is itself out of play adds and drops nothing, so
the answer is the point at which nothing changes any more.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.choosing import Chosen
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.model import GameFile, PlaceWish
from boxwright.problems import Problem


@frozen_value
class InPlay:
    """Ids in play, the version of each clue that is, and what versions move where."""

    ids: frozenset[str]
    chosen: Mapping[str, Chosen]
    moves: Mapping[str, str]

    def closes(self, game: GameFile, lock: str) -> str:
        """Return the box that `lock` closes."""
        return self.moves.get(lock, game.locks[lock].closes)

    def place(self, game: GameFile, id: str) -> PlaceWish:
        """Return where a box or an item is wished to be."""
        own = game.boxes[id].place if id in game.boxes else game.items[id].place
        return self.moves.get(id, own)


def settle(folder: Folder, chosen: Mapping[str, Chosen]) -> InPlay | list[Problem]:
    """Return what `chosen` brings into play, or why that comes to no end or to a clash."""
    game = folder.game
    always = _always(game)
    ids, seen = always, set[frozenset[str]]()
    while ids not in seen:
        seen.add(ids)
        playing = [one for id, one in chosen.items() if id in ids]
        added = {id for one in playing for id in one.version.adds}
        dropped = {id for one in playing for id in one.version.drops}
        following = (always | added) - dropped
        if following == ids:
            return _moved(folder, ids, {one.clue: one for one in playing})
        ids = following
    return [_endless(folder, chosen)]


def _always(game: GameFile) -> frozenset[str]:
    tables: tuple[Mapping[str, Any], ...] = (game.boxes, game.locks, game.items, game.clues)
    return frozenset(id for table in tables for id, thing in table.items() if not thing.optional)


def _endless(folder: Folder, chosen: Mapping[str, Chosen]) -> Problem:
    clues = folder.game.clues
    guilty = [one for one in chosen.values() if any(id in clues for id in one.version.drops)]
    where = folder.where(GAME, (*guilty[0].path, "drops"))
    return Problem.of("arrange.endless", where, clues=tuple(one.clue for one in guilty))


def _moved(
    folder: Folder, ids: frozenset[str], chosen: Mapping[str, Chosen]
) -> InPlay | list[Problem]:
    moves: dict[str, tuple[str, Chosen]] = {}
    problems: list[Problem] = []
    for one in chosen.values():
        for thing, target in one.version.moves.items():
            other = moves.setdefault(thing, (target, one))
            if thing in ids and other[0] != target:
                problems.append(_clash(folder, thing, other, one, target))
    if problems:
        return problems
    return InPlay(ids, chosen, {id: target for id, (target, _) in moves.items() if id in ids})


def _clash(
    folder: Folder, thing: str, first: tuple[str, Chosen], second: Chosen, target: str
) -> Problem:
    line = folder.where(GAME, (*first[1].path, "moves", thing)).line or 0
    where = folder.where(GAME, (*second.path, "moves", thing))
    return Problem.of(
        "arrange.two-moves", where, id=thing, here=target, there=first[0], line=line,
        clue=second.clue, other=first[1].clue,
    )  # fmt: skip


def absent_faults(folder: Folder, play: InPlay) -> Iterator[Problem]:
    """Yield a Problem for each thing in play that names one that is not."""
    yield from _lock_faults(folder, play)
    for id, one in play.chosen.items():
        clue = folder.game.clues[id]
        things = {**folder.game.locks, **folder.game.items}
        if clue.gives in things and clue.gives not in play.ids:
            where = folder.where(GAME, ("clues", id, "gives"))
            yield Problem.of("arrange.gives-absent", where, clue=id, id=clue.gives)
        for number, item in enumerate(one.version.needs):
            if item not in play.ids:
                where = folder.where(GAME, (*one.path, "needs", number))
                yield Problem.of("arrange.needs-absent", where, clue=id, id=item, name=one.name)
    yield from _host_faults(folder, play)


def _lock_faults(folder: Folder, play: InPlay) -> Iterator[Problem]:
    for id, lock in folder.game.locks.items():
        if id not in play.ids:
            continue
        box = play.closes(folder.game, id)
        if box not in play.ids:
            where = folder.where(GAME, ("locks", id, "closes"))
            yield Problem.of("arrange.closes-absent", where, id=id, box=box)
        if lock.opened_by is not None and lock.opened_by not in play.ids:
            where = folder.where(GAME, ("locks", id, "opened_by"))
            yield Problem.of("arrange.key-absent", where, id=id, item=lock.opened_by)


def _host_faults(folder: Folder, play: InPlay) -> Iterator[Problem]:
    for id, one in play.chosen.items():
        host = one.version.on
        if host is None:
            continue
        where = folder.where(GAME, (*one.path, "on"))
        if host not in play.chosen:
            yield Problem.of("arrange.host-absent", where, clue=id, id=host)
        elif id in hosts_of(play, id):
            yield Problem.of("arrange.host-circle", where, clue=id, id=host)


def hosts_of(play: InPlay, id: str) -> list[str]:
    """Return the clues on whose sheets `id` stands, nearest first, up to a repeat."""
    found: list[str] = []
    at = id
    while (one := play.chosen.get(at)) is not None and one.version.on is not None:
        at = one.version.on
        if at in found:
            break
        found.append(at)
    return found
