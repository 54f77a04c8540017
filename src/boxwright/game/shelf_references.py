"""Names and measures in kit.toml and room.toml that no single field can see."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from boxwright.game.draft import KIT, ROOM, Draft
from boxwright.game.mechanisms.device import merged
from boxwright.game.model import RESERVED_IDS, KitFile, KitLock, Place
from boxwright.game.references import order
from boxwright.problems import Edit, Path, Problem
from boxwright.text import nearest

TAGGED = ("locks", "keys", "boxes", "tools")


def real_lock(kit: KitFile, tag: str) -> KitLock:
    """Return lock `tag` of `kit` with what its model says where it says nothing itself."""
    lock = kit.locks[tag]
    return merged(kit.models.get(lock.model) if lock.model is not None else None, lock)


def kit_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with names in the kit."""
    if draft.kit is None:
        return
    yield from _tags(draft)
    for id, make in draft.kit.models.items():
        if make.length is not None:
            yield from order(draft, KIT, ("models", id, "length"), *make.length)
    for tag in draft.kit.locks:
        yield from _lock(draft, draft.kit, tag)
    for tag, key in draft.kit.keys.items():
        for number, lock in enumerate(key.opens):
            yield from _opens(draft, draft.kit, ("keys", tag, "opens", number), lock)
    yield from _own_locks(draft, draft.kit)


def _tags(draft: Draft) -> Iterator[Problem]:
    first: dict[str, Path] = {}
    for section in TAGGED:
        for tag in draft.raw(KIT, section):
            if tag in first:
                where = draft.where(KIT, (section, tag))
                line = draft.where(KIT, first[tag]).line or 0
                yield Problem.of("kit.tag-twice", where, tag=tag, line=line)
            first.setdefault(tag, (section, tag))


def _known(
    draft: Draft, code: str, path: Path, name: str, known: Iterable[str]
) -> Iterator[Problem]:
    known = tuple(known)
    if name in known:
        return
    where, near = draft.where(KIT, path), nearest(name, known)
    if near is None:
        yield Problem.of(f"kit.{code}", where, name=name, choices=known)
    else:
        yield Problem.of(
            f"kit.{code}-but", where, edit=Edit(where.file, path, near), name=name, near=near
        )


def _lock(draft: Draft, kit: KitFile, tag: str) -> Iterator[Problem]:
    lock, path = kit.locks[tag], ("locks", tag)
    if lock.model is not None:
        models = draft.raw(KIT, "models")
        yield from _known(draft, "no-model", (*path, "model"), lock.model, models)
    merged = real_lock(kit, tag)
    if merged.mechanism is None and (lock.model is None or lock.model in kit.models):
        yield Problem.of("kit.no-mechanism", draft.where(KIT, path), tag=tag)
    if lock.length is not None:
        yield from order(draft, KIT, (*path, "length"), *lock.length)
    if lock.fixed and lock.code is None:
        yield Problem.of("kit.fixed-without-code", draft.where(KIT, path), tag=tag)
    if lock.code is not None and not lock.fixed:
        yield Problem.of("kit.code-not-fixed", draft.where(KIT, (*path, "code")), tag=tag)


def _opens(draft: Draft, kit: KitFile, path: Path, lock: str) -> Iterator[Problem]:
    yield from _known(draft, "no-lock", path, lock, draft.raw(KIT, "locks"))
    if lock in kit.locks and real_lock(kit, lock).mechanism not in ("key", None):
        yield Problem.of("kit.key-for-no-key-lock", draft.where(KIT, path), tag=lock)


def _own_locks(draft: Draft, kit: KitFile) -> Iterator[Problem]:
    first: dict[str, str] = {}
    for tag, box in kit.boxes.items():
        if box.own_lock is None:
            continue
        path = ("boxes", tag, "own_lock")
        yield from _known(draft, "no-lock", path, box.own_lock, draft.raw(KIT, "locks"))
        other = first.setdefault(box.own_lock, tag)
        if other != tag:
            where = draft.where(KIT, path)
            yield Problem.of("kit.own-lock-twice", where, lock=box.own_lock, other=other)


# The room.


def room_faults(draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with the places of the room."""
    if draft.room is None:
        return
    said: dict[str, str] = {}
    for id, place in draft.room.places.items():
        where = draft.where(ROOM, ("places", id))
        if id in RESERVED_IDS:
            yield Problem.of("room.reserved", where, id=id, choices=tuple(sorted(RESERVED_IDS)))
        yield from _on_plan(draft, id, place, draft.room.room.plan_mm)
        if place.say is not None:
            other = said.setdefault(place.say.casefold(), id)
            if other != id:
                at = draft.where(ROOM, ("places", id, "say"))
                yield Problem.of("room.say-twice", at, say=place.say, other=other)


def _on_plan(
    draft: Draft, id: str, place: Place, plan: tuple[float, float] | None
) -> Iterator[Problem]:
    unsure = plan is None and "plan_mm" in draft.raw(ROOM, "room")
    if place.at_mm is None or unsure:
        return
    where = draft.where(ROOM, ("places", id, "at_mm"))
    if plan is None:
        yield Problem.of("room.no-plan", where, id=id)
    elif place.at_mm[0] > plan[0] or place.at_mm[1] > plan[1]:
        at, size = (tuple(f"{value:g}" for value in pair) for pair in (place.at_mm, plan))
        yield Problem.of(
            "room.off-plan", where, id=id, x=at[0], y=at[1], length=size[0], breadth=size[1]
        )
