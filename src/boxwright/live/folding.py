"""What each type of event changes in a session's state; what cannot be is left as it was.

A step returns the very same state where nothing changes: a lock that is open already, a group
that nobody knows. That is how the fold is total, and how undoing passes over what did nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from boxwright.live import events as said
from boxwright.live.clock import Instant
from boxwright.live.events import Event
from boxwright.live.noted import Deed, Finish, Group, Hint, Mishap, Note, State, Try
from boxwright.live.play_clock import PlayClock


def moment(event: Event) -> Instant:
    """Return when a thing was done, which may be some time before it arrived."""
    return Instant.of(event).moved(min(event.happened_ms, 0))


def deed_of(state: State, event: Event) -> Deed:
    """Return when an event was done by the game's clock, and on which device."""
    return Deed(event.id, state.clock.played_ms(moment(event)), event.device)


def _opened(state: State, event: Event, data: said.SessionOpened) -> State:
    clock = replace(state.clock, planned_s=data.planned_s)
    return replace(state, purpose=data.purpose, editions=dict(data.editions), clock=clock)


def _closed(state: State, event: Event, data: said.Nothing) -> State:
    """A session that is closed is over for its clock, too."""
    clock = state.clock.ended(moment(event), "")
    return state if state.closed else replace(state, closed=True, clock=clock)


def _marked(state: State, event: Event, data: said.SessionMarked) -> State:
    broken = data.why if data.broken else None
    return state if broken == state.broken else replace(state, broken=broken)


def _clock(state: State, event: Event, data: Any) -> State:
    at, clock = moment(event), state.clock
    steps: Mapping[str, Callable[[], PlayClock]] = {
        "clock.started": lambda: clock.started(at),
        "clock.held": lambda: clock.held(at, data.why),
        "clock.resumed": lambda: clock.resumed(at),
        "clock.extended": lambda: clock.extended(data.seconds),
        "clock.ended": lambda: clock.ended(at, data.why),
        "clock.moved": lambda: clock.moved(at),
    }
    after = steps[event.type]()
    return state if after is clock else replace(state, clock=after)


def _joined(state: State, event: Event, data: said.GroupJoined) -> State:
    known = state.groups.get(data.group)
    if known is None:
        group = Group(data.group, data.name, data.edition)
    else:
        group = replace(known, name=data.name)
    return state if group == known else _with(state, group)


def _ticked(state: State, event: Event, data: said.StepTicked) -> State:
    steps = state.ticked.get(data.list, {})
    if data.step in steps:
        return state
    done = {**steps, data.step: deed_of(state, event)}
    return replace(state, ticked={**state.ticked, data.list: done})


def _mishap(state: State, event: Event, data: said.MishapNoted) -> State:
    mishap = Mishap(data.group, data.thing, data.what, data.note, deed_of(state, event))
    return replace(state, mishaps=(*state.mishaps, mishap))


def _noted(state: State, event: Event, data: said.NoteMade) -> State:
    return replace(state, notes=(*state.notes, Note(data.group, data.text, deed_of(state, event))))


def _mended(state: State, event: Event, data: said.MishapMended) -> State:
    mended = tuple(
        replace(one, mended=deed_of(state, event), how=data.how)
        if one.deed.event == data.event and one.mended is None
        else one
        for one in state.mishaps
    )
    return state if mended == state.mishaps else replace(state, mishaps=mended)


def _played(state: State, event: Event, data: said.Data) -> State:
    """Return the state after something that a group did."""
    group = state.groups.get(getattr(data, "group", ""))
    if group is None:
        return state
    after = _group(group, deed_of(state, event), data)
    return state if after is group else _with(state, after)


def _group(group: Group, deed: Deed, data: said.Data) -> Group:
    match data:
        case said.ClueTaken():
            return _first(group, "taken", data.clue, deed)
        case said.LockOpened():
            return _first(group, "opened", data.lock, deed)
        case said.ItemFound():
            return _first(group, "found", data.item, deed)
        case said.CodeTried():
            return replace(group, tries=(*group.tries, Try(data.lock, data.right, deed)))
        case said.HintGiven():
            if group.hint(data.clue, data.line) is not None:
                return group
            return replace(group, hints=(*group.hints, Hint(data.clue, data.line, deed)))
        case said.GroupFinished() if group.finished is None:
            return replace(group, finished=Finish(data.outcome, deed))
    return group


def _first(group: Group, name: str, thing: str, deed: Deed) -> Group:
    """Return `group` with a thing done, unless it was done before."""
    done: Mapping[str, Deed] = getattr(group, name)
    if thing in done:
        return group
    change: dict[str, Any] = {name: {**done, thing: deed}}
    return replace(group, **change)


def _with(state: State, group: Group) -> State:
    return replace(state, groups={**state.groups, group.id: group})


STEPS: Mapping[str, Callable[[State, Event, Any], State]] = {
    "session.opened": _opened,
    "session.closed": _closed,
    "session.marked": _marked,
    "group.joined": _joined,
    "mishap.noted": _mishap,
    "mishap.mended": _mended,
    "note.made": _noted,
    "step.ticked": _ticked,
}
"""What is done for the types that concern the session; the clock and the groups have their own."""


def changed(state: State, event: Event, data: said.Data) -> State:
    """Return `state` after an event that says `data`; `state` itself if nothing changes."""
    if event.type.startswith("clock."):
        return _clock(state, event, data)
    return STEPS.get(event.type, _played)(state, event, data)
