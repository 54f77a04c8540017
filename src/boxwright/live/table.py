"""One group's table as it stands: which boxes are open, which clue is next, whether it is won.

Locks are open and items found because somebody said so; all else follows, by the same ways that
the proofs of a game rest on. A box is open when its locks are and the box that it stands in; a
sheet or an item that no clue leads to is had with the place where it lies. The projector and the
teacher's tiles share this.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from boxwright.choose.edition import Edition
from boxwright.choose.ways import ways_of
from boxwright.game.arranged import ArrangedGame, boxes_around
from boxwright.game.hinting import hints_allowed
from boxwright.game.unlocking import Way, waves
from boxwright.live.noted import Deed, Group

Standing = Literal["waiting", "ready", "taken", "solved"]


@dataclass(frozen=True, slots=True)
class LockView:
    """A lock, the clues that lead to its code, who opened it, and wrong codes tried.

    `unsaid`: it is not marked open, but a lock behind it is, so somebody forgot to say so.
    """

    id: str
    closes: str
    clues: tuple[str, ...]
    opened: Deed | None
    wrong: int
    unsaid: bool


@dataclass(frozen=True, slots=True)
class BoxView:
    """A box, where it stands, its locks, and since when on the clock it is open."""

    id: str
    name: str
    place: str
    locks: tuple[str, ...]
    open_ms: int | None

    @property
    def open(self) -> bool:
        """Whether its lid is up."""
        return self.open_ms is not None


@dataclass(frozen=True, slots=True)
class ItemView:
    """An item, and since when on the clock the group has it."""

    id: str
    name: str
    wins: bool
    had_ms: int | None


@dataclass(frozen=True, slots=True)
class ClueView:
    """A clue, what it gives, hints given, and since when on the clock it could be worked on.

    Ready: its sheets and what it needs are in hand, as far as that can be told; `ready_ms` is
    since when. `begun_ms` is when it was taken, or else when it was ready; `solved_ms` when
    what it gives was had.
    """

    id: str
    gives: str
    standing: Standing
    hints: int
    ready_ms: int | None
    begun_ms: int | None
    solved_ms: int | None

    @property
    def worked_ms(self) -> int | None:
        """How long it took; None where it is not solved, or nobody can tell when it began."""
        if self.solved_ms is None or self.begun_ms is None:
            return None
        return max(self.solved_ms - self.begun_ms, 0)


@dataclass(frozen=True, slots=True)
class Table:
    """One group's game; things by id, in the game's own order.

    `won_ms` is when on the clock the first winning item was had. `hints_left` never falls
    below 0.
    """

    group: str
    name: str
    boxes: Mapping[str, BoxView]
    locks: Mapping[str, LockView]
    items: Mapping[str, ItemView]
    clues: Mapping[str, ClueView]
    hints_left: int
    won_ms: int | None

    @property
    def won(self) -> bool:
        """Whether the group has what wins the game."""
        return self.won_ms is not None


def table_of(group: Group, edition: Edition) -> Table:
    """Return how things stand at one group's table."""
    game, ways = edition.game, ways_of(edition)
    had = _had(group, game, ways)
    needs = {way.thing: way.needs for way in ways if way.thing in game.clues}
    items = {id: ItemView(id, item.name, item.wins, had.get(id)) for id, item in game.items.items()}
    wins = [item.had_ms for item in items.values() if item.wins and item.had_ms is not None]
    return Table(
        group=group.id,
        name=group.name,
        boxes={id: _box(game, id, had) for id in game.boxes},
        locks=_locks(group, game),
        items=items,
        clues={id: _clue(group, game, id, needs[id], had) for id in game.clues},
        hints_left=max(hints_allowed(game) - len(group.hints), 0),
        won_ms=min(wins, default=None),
    )


def had_at(group: Group, edition: Edition) -> Mapping[str, int]:
    """Return when on the clock each box, lock, item, solved clue and sheet was had, if it was."""
    return _had(group, edition.game, ways_of(edition))


def _had(group: Group, game: ArrangedGame, ways: Sequence[Way]) -> Mapping[str, int]:
    follows = [way for way in ways if way.thing not in (*game.locks, *game.clues)]
    had: dict[str, int] = {}
    given: list[Way] = []
    for at_ms, things in ((0, ()), *_told(group, game)):
        given += [Way(thing) for thing in things]
        for wave in waves([*follows, *given]):
            for thing in wave:
                had.setdefault(thing, at_ms)
    return had


def _told(group: Group, game: ArrangedGame) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield what somebody said was opened or found, and the clues solved by that, in time."""
    deeds = [*group.opened.items(), *group.found.items()]
    for thing, deed in sorted(deeds, key=lambda pair: pair[1].at_ms):
        yield deed.at_ms, (thing, *_leading_to(game, thing))


def _leading_to(game: ArrangedGame, thing: str) -> tuple[str, ...]:
    return tuple(id for id, clue in game.clues.items() if clue.gives == thing)


def _box(game: ArrangedGame, id: str, had: Mapping[str, int]) -> BoxView:
    box = game.boxes[id]
    locks = tuple(lock for lock, one in game.locks.items() if one.closes == id)
    return BoxView(id, box.name, box.place, locks, had.get(id))


def _locks(group: Group, game: ArrangedGame) -> dict[str, LockView]:
    entered = {
        box
        for lock in group.opened
        if lock in game.locks
        for box in boxes_around(game, game.boxes[game.locks[lock].closes].place)
    }
    return {
        id: LockView(
            id=id,
            closes=lock.closes,
            clues=_leading_to(game, id),
            opened=group.opened.get(id),
            wrong=group.wrong_on(id),
            unsaid=id not in group.opened and lock.closes in entered,
        )
        for id, lock in game.locks.items()
    }


def _clue(
    group: Group, game: ArrangedGame, id: str, needs: frozenset[str], had: Mapping[str, int]
) -> ClueView:
    gives, taken = game.clues[id].gives, group.taken.get(id)
    solved = had.get(gives) if gives in (*group.opened, *group.found) else None
    ready = max((had[need] for need in needs), default=0) if needs <= had.keys() else None
    standing: Standing = "waiting" if ready is None else "ready"
    if solved is not None:
        standing = "solved"
    elif taken is not None:
        standing = "taken"
    begun = ready if taken is None else taken.at_ms
    return ClueView(id, gives, standing, group.hints_for(id), ready, begun, solved)
