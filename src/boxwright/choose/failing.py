"""What to know when a lock won't open: its own faults, and whether there is another key."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.gear import Gear
from boxwright.game.mechanisms import entry
from boxwright.problems import Message, say


def helping(gear: Gear, lock: str) -> Iterator[Message]:
    """Yield all that helps with one lock, as its sort, its own faults and its keys have it."""
    device = gear.devices[gear.edition.groups[0]][lock]
    yield from entry(device).failures(device)
    yield from known_faults(gear, lock)
    yield from spares(gear, lock)


def known_faults(gear: Gear, lock: str) -> Iterator[Message]:
    """Yield what the kit says is wrong with the real locks of all groups."""
    for group in gear.edition.groups:
        make, tag = gear.make(group, lock), gear.sticker(group, lock)
        if make is not None and tag is not None and make.faults:
            yield say("card.fail-known", tag=tag, fault=make.faults)


def spares(gear: Gear, lock: str) -> Iterator[Message]:
    """Say whether there is another key for a lock that has one."""
    one, game = gear.edition.game.locks[lock], gear.edition.game
    if one.mechanism == "key":
        having = all(gear.spare(group, lock) for group in gear.edition.groups)
        yield say("card.spare" if having else "card.no-spare", box=game.name_of(one.closes))
