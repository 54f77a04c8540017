"""The shelf has what every group needs; where it has not, for how many groups it does."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from boxwright.checks import About
from boxwright.checks.remedies import change, is_enough
from boxwright.choose.edition import Edition
from boxwright.choose.fitting import lacking
from boxwright.choose.hardware import WALL_MM, real_device, wanted_device
from boxwright.game.arranged import ArrangedGame
from boxwright.game.draft import GAME
from boxwright.game.mechanisms import entry
from boxwright.game.model import KitBox
from boxwright.problems import Arg, Count, Edit, Finding, Message, Problem, say

CODE = "kit.lacks"
Size = tuple[float, ...]


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each thing that some group goes without."""
    kit, game = about.folder.kit, edition.game
    if kit is None:
        return
    lacks = {group: lacking(game, edition.stickers[group]) for group in edition.groups}
    missed = [id for ids in lacks.values() for id in ids if not _with_lock(game, id, ids)]
    for id, groups in Counter(missed).items():
        sort = next(s for s in ("boxes", "locks", "items") if id in getattr(game, s))
        first = next(group for group, ids in lacks.items() if id in ids)
        ending, more = _told(edition, about, id, first)
        args: dict[str, Arg] = {
            "id": id,
            "name": game.name_of(id),
            "kit": kit.kit.name,
            "enough": _enough(lacks, _near(edition, about, id)),
        }
        edit = _stand_in(edition, about, id)
        problem = Problem.of(f"{CODE}-{ending}", about.where(sort, id), edit=edit, **args, **more)
        have = len(edition.groups) - groups
        yield Finding(problem, "stop", "computed", Count(have, len(edition.groups)))


def _enough(lacks: Mapping[str, tuple[str, ...]], near: tuple[Message, ...]) -> Message:
    """Say for how many groups the shelf has all; for one, what is near to what it lacks."""
    if len(lacks) > 1:
        return say("kit.enough", n=list(lacks.values()).count(()), groups=len(lacks))
    return say("kit.enough-none-but", locks=near) if near else say("kit.enough-none")


def _with_lock(game: ArrangedGame, id: str, missed: tuple[str, ...]) -> bool:
    """Tell whether `id` is the key of a lock that is missed itself: then that one is told."""
    return any(one in missed and game.locks[one].opened_by == id for one in game.locks)


def _told(edition: Edition, about: About, id: str, group: str) -> tuple[str, dict[str, Arg]]:
    """Return how the message ends, and what it says besides."""
    game = edition.game
    if id in game.boxes:
        return _box(edition, about, id, edition.stickers[group])
    if id in game.locks:
        return "locks", {"kind": _lock(about, id, game)}
    return "items", {"kind": game.items[id].tool or say("kit.a-key")}


def _stand_in(edition: Edition, about: About, id: str) -> Edit | None:
    """Return what lets paper stand in for a lock, where nobody forbade it and it is enough."""
    game = edition.game
    if id not in game.locks or "stand_in" in about.folder.files[GAME].data["locks"][id]:
        return None
    allowed = {**game.locks, id: replace(game.locks[id], stand_in="allowed")}
    enough = is_enough(edition, about.folder, replace(game, locks=allowed), mended=id)
    return change(about, "locks", id, "stand_in", to="allowed") if enough else None


def _lock(about: About, id: str, game: ArrangedGame) -> Message:
    lock = game.locks[id]
    name = say(f"mechanism.name-{lock.mechanism}")
    device = wanted_device(about.folder, id, lock)
    if entry(device).alphabet(device) is None:
        return name
    return say("kit.lock-with-codes", name=name, length=entry(device).lengths(device))


def _near(edition: Edition, about: About, id: str) -> tuple[Message, ...]:
    """Return the locks of the same sort that are free, though they will not do."""
    folder, lock = about.folder, edition.game.locks.get(id)
    if folder.kit is None or lock is None:
        return ()
    taken = {tag for of_group in edition.stickers.values() for tag in of_group.values()}
    free = {tag: real_device(folder, tag) for tag in folder.kit.locks if tag not in taken}
    return tuple(
        say("kit.near-lock", tag=tag, length=entry(device).lengths(device))
        for tag, device in free.items()
        if device.mechanism == lock.mechanism and entry(device).alphabet(device) is not None
    )


# A box must take its locks, be large enough, and go into the one that it stands in.


def _box(
    edition: Edition, about: About, id: str, stickers: Mapping[str, str]
) -> tuple[str, dict[str, Arg]]:
    game, kit = edition.game, about.folder.kit
    box, hanging = game.boxes[id], _hanging(game, id)
    needs = [say("kit.needs-own-lock") if box.own_lock else say("kit.needs-holes", n=hanging)]
    if box.inside_mm is not None:
        needs.append(say("kit.needs-inside", size=_size(box.inside_mm)))
    tag = stickers.get(box.place)
    outer = kit.boxes.get(tag) if kit is not None and tag is not None else None
    most = _most(outer)
    if most is None or tag is None:
        return "boxes", {"needs": tuple(needs)}
    around = game.name_of(box.place)
    needs.append(say("kit.needs-to-go-into", name=around, tag=tag, most=_size(most)))
    fits = box.inside_mm is None or _within(box.inside_mm, most)
    more: dict[str, Arg] = {"needs": tuple(needs), "outer": box.place, "most": _size(most)}
    return ("boxes-inside" if fits else "boxes-never"), more


def _hanging(game: ArrangedGame, id: str) -> int:
    mine = sum(lock.closes == id for lock in game.locks.values())
    return max(game.boxes[id].locks or 0, mine)


def _most(outer: KitBox | None) -> Size | None:
    """Return how large a box may be inside to go into `outer`, walls allowed for."""
    if outer is None or outer.inside_mm is None:
        return None
    return tuple(side - 2 * WALL_MM for side in outer.inside_mm)


def _within(inner: Size, most: Size) -> bool:
    return all(a <= b for a, b in zip(sorted(inner), sorted(most), strict=True))


def _size(sides: Size) -> Message:
    length, breadth, height = (f"{side:g}" for side in sides)
    return say("kit.size", length=length, breadth=breadth, height=height)
