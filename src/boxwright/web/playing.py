"""One session as pages show it: its clock, its tables, what can be undone, what went wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.live.ahead import Next, ahead
from boxwright.live.clock import Instant
from boxwright.live.day import day_of
from boxwright.live.events import Event
from boxwright.live.noted import Group, Mishap, State
from boxwright.live.table import BoxView, Table, table_of
from boxwright.live.telling import told
from boxwright.problems import Message

TAKEN_BACK = 5
"""How many of the last events can be taken back at a glance."""


@dataclass(frozen=True)
class Playing:
    """A session with the editions of its groups."""

    session: str
    state: State
    editions: Mapping[str, Edition]

    @property
    def edition(self) -> Edition:
        """The first group's edition: what all share (title, times, story) is the same in each."""
        return next(iter(self.editions.values()))

    def clock(self, now: Instant) -> dict[str, Any]:
        """Return the clock as the pages' scripts need it."""
        clock = self.state.clock
        day = day_of(clock, self.edition.game.time, now)
        return {
            "status": clock.status,
            "played_ms": clock.played_ms(now),
            "total_ms": 1000 * clock.total_s,
            "start_ms": day.start_ms,
            "end_ms": day.end_ms,
            "tidy_ms": day.tidy_ms,
            "bell_ms": day.bell_ms,
            "now_ms": now.wall_ms,
        }

    def groups(self) -> Iterator[tuple[Group, Edition]]:
        """Yield the groups in the order in which they joined, each with what it plays."""
        for id, group in self.state.groups.items():
            if id in self.editions:
                yield group, self.editions[id]

    def undoable(self) -> Iterator[tuple[Event, Message]]:
        """Yield the last few events that can be taken back, the latest first.

        Ticks are taken back where they were made.
        """
        deeds = (event for event in reversed(self.state.undo) if event.type != "step.ticked")
        for event in islice(deeds, TAKEN_BACK):
            yield event, self.told(event)

    def redoable(self) -> tuple[Event, Message] | None:
        """Return the undoing that can be taken back next, with what was undone."""
        return (self.state.redo[-1], self.told(self.state.redo[-1])) if self.state.redo else None

    def told(self, event: Event) -> Message:
        """Say what happened."""
        edition = self.editions.get(event.data.get("group", ""), self.edition)
        return told(event, self.state, edition.game)

    def mishaps(self) -> Iterator[Mishap]:
        """Yield what is not put right yet."""
        return (one for one in self.state.mishaps if one.mended is None)

    def table_name(self, group: str | None) -> str | None:
        """Return the name of a table; None where all are meant."""
        known = self.state.groups.get(group or "")
        return group if known is None else known.name


@dataclass(frozen=True, slots=True)
class Tile:
    """A table as its tile shows it, and as what comes of it in a session's last event."""

    group: Group
    table: Table
    ahead: tuple[Next, ...]
    prizes: tuple[str, ...]

    @property
    def since_ms(self) -> int:
        """When on the clock it last opened or found something; 0 is the start."""
        last = self.group.last_success
        return 0 if last is None else last.at_ms

    @property
    def found(self) -> bool:
        """Whether it opened or found anything yet."""
        return self.group.last_success is not None

    @property
    def lids(self) -> tuple[BoxView, ...]:
        """Its boxes that somebody closes."""
        return tuple(box for box in self.table.boxes.values() if box.locks)

    @property
    def up(self) -> int:
        """How many of its lids are up."""
        return sum(box.open for box in self.lids)

    @property
    def hints(self) -> tuple[int, int]:
        """Hints that are left, and those that it got."""
        return self.table.hints_left, len(self.group.hints)


def tile_of(group: Group, edition: Edition) -> Tile:
    """Return a group's tile."""
    table = table_of(group, edition)
    prizes = (item.name for item in table.items.values() if item.wins and item.had_ms is not None)
    return Tile(group, table, ahead(table, edition.game), tuple(prizes))
