"""What time it is: on a counter that sleep does not stop, and by the wall clock.

A wall clock may jump (a time server, a hand, another zone), a counter may stop while a lid is
closed. So every event carries both. Between two instants of one boot the counter tells the
time, across boots the wall.

The counter is CLOCK_BOOTTIME on Linux, and on macOS CLOCK_MONOTONIC_RAW, which is documented to
go on in sleep. Elsewhere `time.monotonic` has to do, which on Windows counts sleep, too.
Only Linux has been tried.
"""

from __future__ import annotations

import secrets
import sys
import time
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol, Self

from boxwright.ledger.event import Event, wall_ms, wall_text

BOOT_ID = Path("/proc/sys/kernel/random/boot_id")
_NS_PER_MS = 1_000_000


@dataclass(frozen=True, slots=True)
class Instant:
    """A moment: milliseconds since the start of `boot`, and since 1970 by the wall clock."""

    boot: str
    since_boot_ms: int
    wall_ms: int

    @property
    def wall(self) -> str:
        """The wall clock's time as it is kept, in RFC 3339."""
        return wall_text(self.wall_ms)

    @property
    def offset_ms(self) -> int:
        """How far the wall clock is ahead of the counter; it changes where the wall jumps."""
        return self.wall_ms - self.since_boot_ms

    @classmethod
    def of(cls, event: Event) -> Self:
        """Return when an event arrived."""
        return cls(event.boot, event.since_boot_ms, wall_ms(event.wall))

    def moved(self, ms: int) -> Self:
        """Return the moment `ms` later, or earlier if that is negative."""
        return replace(self, since_boot_ms=self.since_boot_ms + ms, wall_ms=self.wall_ms + ms)


def between_ms(earlier: Instant, later: Instant) -> int:
    """Return the milliseconds from one instant to another, negative where it is the other way."""
    if earlier.boot == later.boot:
        return later.since_boot_ms - earlier.since_boot_ms
    return later.wall_ms - earlier.wall_ms


class Clock(Protocol):
    """Whatever tells the time; tests bring their own."""

    def now(self) -> Instant:
        """Return the present moment."""


class SystemClock:
    """The computer's own clock."""

    def __init__(self) -> None:
        """Look up once which boot this is."""
        self.boot = _boot()

    def now(self) -> Instant:
        """Return the present moment."""
        return Instant(self.boot, _counter_ns() // _NS_PER_MS, time.time_ns() // _NS_PER_MS)


def _boot() -> str:
    """Return an id of this run of the computer.

    Where the system tells none, one of this process: then across processes the wall tells the
    time, which is right unless it jumps.
    """
    try:
        return BOOT_ID.read_text(encoding="ascii").strip()
    except OSError:
        return secrets.token_hex(16)


def _counter_ns() -> int:
    """Return nanoseconds on a counter that goes on in sleep, as far as the system has one."""
    name = {"linux": "CLOCK_BOOTTIME", "darwin": "CLOCK_MONOTONIC_RAW"}.get(sys.platform, "")
    number = getattr(time, name, None)
    return time.monotonic_ns() if number is None else time.clock_gettime_ns(number)
