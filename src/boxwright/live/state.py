"""What a session has come to: a fold over its events, pure and total.

Any beginning of a stream folds; what was undone counts as never happened; an event that is there
twice counts once. What follows from locks and boxes stands in `table`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from boxwright.live.events import DATA, Event, data_of
from boxwright.live.folding import changed
from boxwright.live.noted import Deed, Finish, Group, Hint, Mishap, Note, State, Try

__all__ = [
    "FOR_GOOD", "Deed", "Finish", "Group", "Hint", "Mishap", "Note", "State", "Try",
    "advance", "fold", "undone_ids",
]  # fmt: skip

FOR_GOOD = frozenset({"session.opened", "device.joined", "group.joined", "clock.moved"})
"""Types that nobody undoes."""
UNDONE = "undone"


def fold(events: Iterable[Event]) -> State:
    """Return the state that `events` make, in the order of their numbers."""
    stream = _stream(events)
    undone = undone_ids(stream)
    state = State()
    for event in stream:
        if event.type != UNDONE and event.id not in undone:
            state = _step(state, event)
    last = stream[-1].seq if stream else 0
    return replace(state, seq=last, redo=_redo(stream, undone, state))


def advance(state: State, before: Sequence[Event], event: Event) -> State:
    """Return the state one event later; `before` are those that `state` is made of."""
    if event.seq <= state.seq:
        return state
    if event.type == UNDONE:
        return fold((*before, event))
    return _step(state, event)


def undone_ids(events: Sequence[Event]) -> frozenset[str]:
    """Return the ids of what counts as never happened; an undoing may be undone itself."""
    undone: set[str] = set()
    for event in reversed(events):
        if event.type == UNDONE and event.id not in undone:
            undone.add(event.data["event"])
    return frozenset(undone)


def _stream(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return each event once, in order."""
    once: dict[str, Event] = {}
    for event in sorted(events, key=lambda one: one.seq):
        once.setdefault(event.id, event)
    return tuple(once.values())


def _redo(stream: Sequence[Event], undone: frozenset[str], state: State) -> tuple[Event, ...]:
    """Return the undoings that nothing new has come after and that can be taken back."""
    newest = state.undo[-1].seq if state.undo else 0
    undoings = {event.id for event in stream if event.type == UNDONE}
    return tuple(
        event
        for event in stream
        if event.type == UNDONE
        and event.id not in undone
        and event.data["event"] not in undoings
        and event.seq > newest
    )


def _step(state: State, event: Event) -> State:
    """Return the state after one event that is no undoing."""
    after = changed(state, event, data_of(event)) if event.type in DATA else state
    if after is state or event.type in FOR_GOOD:
        return replace(after, seq=event.seq)
    return replace(after, seq=event.seq, undo=(*state.undo, event), redo=())
