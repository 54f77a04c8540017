"""What to take from a shelf that no kit lists: how large a box, for which code a lock."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.gear import Gear
from boxwright.game.mechanisms import entry
from boxwright.problems import Message, say


def taking(gear: Gear, groups: tuple[str, ...], id: str) -> tuple[Message, ...]:
    """Say what will do for a box, a lock or an item that has no sticker with one of `groups`."""
    bare = next((group for group in groups if gear.sticker(group, id) is None), None)
    if bare is None:
        return ()
    game = gear.edition.game
    if id in game.boxes:
        return tuple(_box(gear, bare, id))
    return (_lock(gear, bare, id),) if id in game.locks else (_item(gear, id),)


def _box(gear: Gear, group: str, id: str) -> Iterator[Message]:
    box = gear.edition.game.boxes[id]
    own = [lock for lock in gear.on(id) if gear.built_in(group, lock)]
    hung = [lock for lock in gear.on(id) if lock not in own and not gear.envelope(group, lock)]
    yield say("step.take-box", n=len(hung)) if hung else say("step.take-box-any")
    if box.inside_mm is not None:
        long, wide, high = (f"{side:g}" for side in box.inside_mm)
        yield say("step.take-inside", long=long, wide=wide, high=high)
    for lock in own:
        code = _code(gear, group, lock)
        yield say("step.take-built-in", code=code) if code else say("step.take-built-in-key")


def _lock(gear: Gear, group: str, id: str) -> Message:
    code = _code(gear, group, id)
    return say("step.take-lock", code=code) if code else say("step.take-with-key")


def _code(gear: Gear, group: str, id: str) -> str:
    """Return a lock's code in writing; empty for one that has none."""
    device, code = gear.devices[group][id], gear.edition.codes.get(id, ())
    return entry(device).write(device, code) if code else ""


def _item(gear: Gear, id: str) -> Message:
    game = gear.edition.game
    opened = [lock for lock, one in game.locks.items() if one.opened_by == id]
    if opened:
        return say(
            "step.take-key-of", boxes=tuple(game.name_of(game.locks[o].closes) for o in opened)
        )
    tool = game.items[id].tool
    return say("step.take-item") if tool is None else say("step.take-tool", tool=tool)
