"""Events for the ledger's tests: it stores them and asks nothing of what they say."""

from __future__ import annotations

from itertools import count
from typing import Any

from boxwright.ledger.event import Event, wall_text

NUMBERS = count(1)
START_MS = 2_000_000_000_000


def event(session: str = "s-one", kind: str = "note.made", id: str = "", **data: Any) -> Event:
    """Return an event with an id of its own, unless one is given."""
    number = next(NUMBERS)
    return Event(
        id=id or f"event-{number:08}",
        session=session,
        type=kind,
        wall=wall_text(START_MS + number),
        since_boot_ms=number,
        boot="boot",
        device="d-1",
        rights="teacher",
        data=data,
        happened_ms=-number,
    )
