"""What is known of a session: its groups, clock, mishaps, notes and ticks, as frozen values.

Times in `at_ms` are milliseconds played until then, by the game's clock.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from boxwright.live.events import Event, Mischief, Outcome, Purpose
from boxwright.live.play_clock import PlayClock


@dataclass(frozen=True, slots=True)
class Deed:
    """When a thing was done on the game's clock, on whose device, and the event that says so."""

    event: str
    at_ms: int
    device: str


@dataclass(frozen=True, slots=True)
class Try:
    """A code that a group tried on a lock."""

    lock: str
    right: bool
    deed: Deed


@dataclass(frozen=True, slots=True)
class Hint:
    """A line (from 1) of a clue's hints that a group got."""

    clue: str
    line: int
    deed: Deed


@dataclass(frozen=True, slots=True)
class Finish:
    """How a group's game ended."""

    outcome: Outcome
    deed: Deed


@dataclass(frozen=True, slots=True)
class Group:
    """One group under the name of its table; what it did, by the ids of its edition."""

    id: str
    name: str
    edition: str
    taken: Mapping[str, Deed] = field(default_factory=dict)
    opened: Mapping[str, Deed] = field(default_factory=dict)
    found: Mapping[str, Deed] = field(default_factory=dict)
    tries: tuple[Try, ...] = ()
    hints: tuple[Hint, ...] = ()
    finished: Finish | None = None

    @property
    def wrong(self) -> int:
        """How many wrong codes it tried."""
        return sum(not one.right for one in self.tries)

    @property
    def last_success(self) -> Deed | None:
        """When it last opened a lock or found an item."""
        deeds = (*self.opened.values(), *self.found.values())
        return max(deeds, key=lambda deed: deed.at_ms, default=None)

    def wrong_on(self, lock: str) -> int:
        """Return how many wrong codes it tried on one lock."""
        return sum(not one.right for one in self.tries if one.lock == lock)

    def hint(self, clue: str, line: int) -> Deed | None:
        """Return when it got one line of a clue's hints, if it did."""
        same = (one.deed for one in self.hints if (one.clue, one.line) == (clue, line))
        return next(same, None)

    def hints_for(self, clue: str) -> int:
        """Return how many lines of one clue's hints it got."""
        return sum(one.clue == clue for one in self.hints)


@dataclass(frozen=True, slots=True)
class Mishap:
    """What went wrong with a thing, and how and when that was mended; `group` None: for all."""

    group: str | None
    thing: str
    what: Mischief
    note: str
    deed: Deed
    mended: Deed | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """A remark about a group, or about all."""

    group: str | None
    text: str
    deed: Deed


@dataclass(frozen=True, slots=True)
class State:
    """All that pages show of a session.

    `seq` numbers the last event that is in it. `ticked` has for each list its steps done. `undo`
    are the events that changed something, the last one last; `redo` the undoings that can be
    taken back, the next one last. `telling.told` puts either into words.
    """

    seq: int = 0
    purpose: Purpose = "class"
    editions: Mapping[str, str] = field(default_factory=dict)
    clock: PlayClock = field(default_factory=PlayClock)
    groups: Mapping[str, Group] = field(default_factory=dict)
    mishaps: tuple[Mishap, ...] = ()
    notes: tuple[Note, ...] = ()
    ticked: Mapping[str, Mapping[str, Deed]] = field(default_factory=dict)
    closed: bool = False
    broken: str | None = None
    undo: tuple[Event, ...] = ()
    redo: tuple[Event, ...] = ()
