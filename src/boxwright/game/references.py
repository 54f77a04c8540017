"""What no single field of game.toml can see: names that clash, and ranges out of order.

Names inside clues and texts are `clue_references`' business.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.game.draft import GAME, ROOM, SECTIONS, Draft
from boxwright.game.model import RESERVED_IDS, Arrangement, LockWish
from boxwright.game.names import expect, place_names
from boxwright.problems import Edit, Path, Problem
from boxwright.text import nearest


def reference_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with ids, ranges, boxes, locks, items and arrangements."""
    yield from _ids(draft)
    yield from _head(draft)
    yield from _time(draft)
    for id, box in draft.game.boxes.items():
        yield from place_names(draft, ("boxes", id, "place"), box.place, here=not box.optional)
    for id, item in draft.game.items.items():
        yield from place_names(draft, ("items", id, "place"), item.place, here=not item.optional)
    for id, lock in draft.game.locks.items():
        yield from _lock(draft, id, lock)
    for id, arrangement in draft.game.arrangements.items():
        yield from _arrangement(draft, id, arrangement)


def _ids(draft: Draft) -> Iterator[Problem]:
    """Each id stands for one thing, in the game and in the room together."""
    first: dict[str, Path] = {}
    for section in SECTIONS:
        for id in draft.raw(GAME, section):
            path = (section, id)
            where = draft.where(GAME, path)
            if id in RESERVED_IDS:
                yield Problem.of("game.reserved", where, id=id, choices=tuple(sorted(RESERVED_IDS)))
            elif id in first:
                line = draft.where(GAME, first[id]).line or 0
                yield Problem.of("game.id-twice", where, id=id, line=line, other=first[id][0])
            elif draft.room is not None and id in draft.room.places:
                place = draft.where(ROOM, ("places", id))
                yield Problem.of(
                    "game.id-of-room", where, id=id, file=place.file, line=place.line or 0
                )
            first.setdefault(id, path)


def _head(draft: Draft) -> Iterator[Problem]:
    head = draft.game.game
    for key, (low, high) in (("ages", head.ages), ("groups", head.groups), ("pupils", head.pupils)):
        yield from order(draft, GAME, ("game", key), low, high)


def order(draft: Draft, file: str, path: Path, low: int, high: int) -> Iterator[Problem]:
    """Yield a Problem unless the range at `path` goes up."""
    if low > high:
        where = draft.where(file, path)
        edit = Edit(where.file, path, (high, low))
        key = str(path[-1])
        yield Problem.of("game.range-order", where, edit=edit, key=key, low=low, high=high)


def _time(draft: Draft) -> Iterator[Problem]:
    time = draft.game.time
    rest = time.settle + time.briefing + time.debrief + time.tidy
    if rest >= time.bell_to_bell:
        where = draft.where(GAME, ("time", "bell_to_bell"))
        yield Problem.of("game.no-time-to-play", where, rest=rest, whole=time.bell_to_bell)


def _lock(draft: Draft, id: str, lock: LockWish) -> Iterator[Problem]:
    yield from expect(draft, ("locks", id, "closes"), lock.closes, "box")
    if lock.length is not None:
        yield from order(draft, GAME, ("locks", id, "length"), *lock.length)
    if lock.opened_by is not None:
        path = ("locks", id, "opened_by")
        yield from expect(draft, path, lock.opened_by, "item")
        if lock.mechanism != "key":
            yield Problem.of("game.no-key-lock", draft.where(GAME, path), id=id, has=lock.mechanism)
    elif lock.mechanism == "key":
        yield Problem.of("game.key-lock-alone", draft.where(GAME, ("locks", id)), id=id)


def _arrangement(draft: Draft, id: str, arrangement: Arrangement) -> Iterator[Problem]:
    for clue, version in arrangement.versions.items():
        path = ("arrangements", id, "versions", clue)
        yield from expect(draft, path, clue, "clue", is_key=True)
        known = draft.raw(GAME, "clues", clue, "versions")
        if known and version not in known:
            near = nearest(version, known) or next(iter(known))
            where, edit = draft.where(GAME, path), Edit(GAME, path, near)
            choices = tuple(known)
            yield Problem.of(
                "game.unknown-version", where, edit=edit, version=version, clue=clue,
                choices=choices, near=near,
            )  # fmt: skip
