"""What the sender of an event is told: who was first, that nothing changes, that hints are up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from boxwright.choose.edition import Edition
from boxwright.game.hinting import hints_allowed
from boxwright.live import events as said
from boxwright.live.events import Data, Event
from boxwright.live.folding import changed
from boxwright.live.noted import State
from boxwright.live.state import undone_ids
from boxwright.live.telling import already
from boxwright.problems import Message, say


def remark(
    event: Event,
    data: Data,
    before: State,
    earlier: Sequence[Event],
    editions: Mapping[str, Edition],
) -> Message | None:
    """Return what to tell the sender of `event`; it came when all was as in `before`.

    `earlier` are the events before it, `editions` the session's by group.
    """
    if isinstance(data, said.Undone):
        return say("live.already-undone") if data.event in undone_ids(earlier) else None
    first = already(event, data, before)
    if first is not None:
        return first
    if isinstance(data, said.HintGiven):
        allowed = hints_allowed(editions[data.group].game)
        given = len(before.groups[data.group].hints) + 1
        return say("live.hints-over", given=given, n=allowed) if given > allowed else None
    if changed(before, event, data) is not before:
        return None
    if event.type.startswith("clock."):
        return say(f"live.clock-{before.clock.status}")
    return say("live.changes-nothing")
