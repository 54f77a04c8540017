"""What is kept of one happening, and the ids and instants that it is kept under."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

_START = datetime(1970, 1, 1, tzinfo=UTC)
_MS = timedelta(milliseconds=1)
_VERSION_7, _VARIANT = 0x7 << 76, 0b10 << 62


@dataclass(frozen=True, slots=True)
class Event:
    """One happening of a session, as it is stored; `seq` is 0 until it is.

    `wall` is an instant in RFC 3339, UTC, with milliseconds; `since_boot_ms` counts from the
    start of the computer that `boot` names, sleep included. `happened_ms`, at most 0, tells how
    long before it arrived a thing was tapped.
    """

    id: str
    session: str
    type: str
    wall: str
    since_boot_ms: int
    boot: str
    device: str
    rights: str
    data: Mapping[str, Any] = field(default_factory=dict)
    happened_ms: int = 0
    seq: int = 0
    v: int = 1


def new_id(wall_ms: int) -> str:
    """Return an id that sorts by time and that nobody else will make (a UUID of version 7)."""
    value = (wall_ms & (1 << 48) - 1) << 80 | _VERSION_7 | _VARIANT
    value |= secrets.randbits(12) << 64 | secrets.randbits(62)
    text = f"{value:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def wall_text(wall_ms: int) -> str:
    """Return milliseconds since 1970 as an instant in RFC 3339."""
    return (_START + wall_ms * _MS).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def wall_here(text: str) -> str:
    """Return an instant in RFC 3339 as the clock on the wall here shows it, without seconds."""
    return f"{datetime.fromisoformat(text).astimezone():%Y-%m-%d %H:%M}"


def wall_ms(text: str) -> int:
    """Return an instant in RFC 3339 as milliseconds since 1970; ValueError where it is none."""
    return (datetime.fromisoformat(text) - _START) // _MS
