"""Whole sessions of the small game on a ledger, as tables may have played them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from boxwright.live.desk import Desk
from boxwright.live.events import Purpose
from tests.live.plays import EDITION, ObedientClock, draft

Deeds = Sequence[tuple[int, str, Mapping[str, Any]]]
"""Seconds on the game's clock, a type of event, and what it says."""


def opens(group: str, lock: str) -> tuple[str, Mapping[str, Any]]:
    """Return that a group opens a lock."""
    return "lock.opened", {"group": group, "lock": lock}


def play(
    desk: Desk,
    deeds: Deeds,
    *,
    purpose: Purpose = "class",
    forecast: Any = None,
    length_s: int = 1500,
) -> str:
    """Let two tables play a session to its end, and return its id."""
    session = desk.open([EDITION], 1500, {"1": "A", "2": "B"}, purpose=purpose, forecast=forecast)
    says = sayer(desk, session)
    says("clock.started")
    assert isinstance(desk.clock, ObedientClock)
    now = 0
    for at, kind, data in sorted(deeds, key=lambda deed: deed[0]):
        desk.clock.passes(at - now)
        now = at
        says(kind, **data)
    desk.clock.passes(length_s - now)
    says("clock.ended", why="")
    return session


def sayer(desk: Desk, session: str) -> Callable[..., str]:
    """Return what says something in a session, and returns its event's id."""

    def says(kind: str, **data: Any) -> str:
        seq = desk.state(session).seq
        return desk.take(session, draft(kind, id=f"{seq:04}-{session}"[:64], **data)).event.id

    return says
