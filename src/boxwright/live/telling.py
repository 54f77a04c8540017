"""Events in words: what happened, at which table; what was there before.

The message of an event follows from its type, and for a few types from what it says.
"""

from __future__ import annotations

from dataclasses import fields

from boxwright.game.arranged import ArrangedGame
from boxwright.live import events as said
from boxwright.live.events import DATA, Event, data_of
from boxwright.live.noted import Deed, State
from boxwright.problems import Arg, Message, say

CALLED = ("lock", "item", "thing")
"""What an event is about, in its data, and has a name."""


def told(event: Event, state: State, game: ArrangedGame | None = None) -> Message:
    """Say what happened, with the names that groups have in `state` and things in `game`."""
    if event.type not in DATA:
        return say("live.did-other", type=event.type)
    data = data_of(event)
    values = {one.name: getattr(data, one.name) for one in fields(data)}
    blanks: dict[str, Arg] = {
        name: value for name, value in values.items() if isinstance(value, str | int)
    }
    if game is not None:
        blanks |= {name: _called(value, game) for name, value in blanks.items() if name in CALLED}
    if isinstance(data, said.MishapNoted):
        blanks["what"] = say(f"live.mishap-{data.what}")
    if isinstance(data, said.ClockExtended):
        blanks["time"] = on_clock(1000 * abs(data.seconds))
    id = f"live.did-{event.type.replace('.', '-')}{_variant(data)}"
    return Message(id, blanks | {"table": table_name(state, values.get("group"))})


def _called(thing: Arg, game: ArrangedGame) -> Arg:
    """Return what people call a thing: a box or item by its name, a lock with its box."""
    if thing in game.locks:
        box = game.name_of(game.locks[str(thing)].closes)
        return say("live.lock-on", lock=thing, box=box)
    return game.name_of(str(thing))


def _variant(data: said.Data) -> str:
    """Return the ending of a message's id where one type has several."""
    match data:
        case said.CodeTried():
            return "-right" if data.right else "-wrong"
        case said.GroupFinished():
            return f"-{data.outcome}"
        case said.StepTicked():
            return f"-{data.list}"
        case said.ClockExtended():
            return "-less" if data.seconds < 0 else "-more"
    return ""


def table_name(state: State, group: str | None) -> Arg:
    """Return the name of a group's table: its id where nobody named it; None is all tables."""
    if group is None:
        return say("live.all")
    known = state.groups.get(group)
    return group if known is None else known.name


def on_clock(ms: int) -> Message:
    """Say a time as a clock shows it: minutes and seconds."""
    minutes, seconds = divmod(ms // 1000, 60)
    return say("live.clock", minutes=minutes, seconds=seconds)


def already(event: Event, data: said.Data, before: State) -> Message | None:
    """Say who was first, where an event is about something that was done before."""
    first = _first(data, before)
    if first is None:
        return None
    what = told(event, before)
    return say("live.already", what=what, at=on_clock(first.at_ms), device=first.device)


def _first(data: said.Data, before: State) -> Deed | None:
    """Return the deed that `data` repeats."""
    if isinstance(data, said.StepTicked):
        return before.ticked.get(data.list, {}).get(data.step)
    group = before.groups.get(getattr(data, "group", None) or "")
    if group is None:
        return None
    match data:
        case said.LockOpened():
            return group.opened.get(data.lock)
        case said.ItemFound():
            return group.found.get(data.item)
        case said.ClueTaken():
            return group.taken.get(data.clue)
        case said.GroupFinished():
            return None if group.finished is None else group.finished.deed
        case said.HintGiven():
            return group.hint(data.clue, data.line)
    return None
