"""What can happen in a session, and what is said of it.

A type is a name such as `lock.opened`, and its data one of the records here, kept as JSON.
Group names are all that is kept of pupils. What comes in is checked by `drafts`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from boxwright.ledger.event import Event
from boxwright.records import from_json

__all__ = ["DATA", "Data", "Event", "data_of"]

Purpose = Literal["class", "try-out"]
Outcome = Literal["won", "unfinished"]
Mischief = Literal["jammed", "lost", "torn", "leaked", "other"]
List = Literal["set-up", "reset"]


@dataclass(frozen=True, slots=True)
class Nothing:
    """The type says it all."""


@dataclass(frozen=True, slots=True)
class SessionOpened:
    """The id of each group's edition, and the time to play; `forecast` is a time plan's JSON."""

    editions: Mapping[str, str]
    planned_s: int
    purpose: Purpose = "class"
    forecast: Any = None


@dataclass(frozen=True, slots=True)
class SessionMarked:
    """Whether something went so wrong that nothing should be learnt from this session."""

    broken: bool
    why: str = ""


@dataclass(frozen=True, slots=True)
class DeviceJoined:
    """What the device may do."""

    rights: str


@dataclass(frozen=True, slots=True)
class GroupJoined:
    """A group under the name of its table; again to give it another name."""

    group: str
    name: str
    edition: str


@dataclass(frozen=True, slots=True)
class Why:
    """A reason, where somebody gives one."""

    why: str = ""


@dataclass(frozen=True, slots=True)
class ClockExtended:
    """More time, or less where it is negative."""

    seconds: int


@dataclass(frozen=True, slots=True)
class ClockMoved:
    """How far the computer's wall clock jumped, forwards or back."""

    wall_change_ms: int


@dataclass(frozen=True, slots=True)
class ClueTaken:
    """A group began to work on a clue."""

    group: str
    clue: str


@dataclass(frozen=True, slots=True)
class LockOpened:
    """A group opened a lock."""

    group: str
    lock: str


@dataclass(frozen=True, slots=True)
class ItemFound:
    """A group found an item."""

    group: str
    item: str


@dataclass(frozen=True, slots=True)
class CodeTried:
    """A group tried a code on a lock; never which code."""

    group: str
    lock: str
    right: bool


@dataclass(frozen=True, slots=True)
class HintGiven:
    """A group got a line (from 1) of a clue's hints."""

    group: str
    clue: str
    line: int


@dataclass(frozen=True, slots=True)
class MishapNoted:
    """Something went wrong with a thing, at one group's table or for all."""

    thing: str
    what: Mischief
    note: str = ""
    group: str | None = None


@dataclass(frozen=True, slots=True)
class MishapMended:
    """How the mishap of an earlier event was put right."""

    event: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class NoteMade:
    """A remark, about one group or all."""

    text: str
    group: str | None = None


@dataclass(frozen=True, slots=True)
class GroupFinished:
    """A group's game is over."""

    group: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class StepTicked:
    """A step of setting up or of resetting is done; `photo` names a picture of it."""

    list: List
    step: str
    photo: str | None = None


@dataclass(frozen=True, slots=True)
class Undone:
    """An earlier event, which may be an undoing itself, counts as never happened."""

    event: str


Data: TypeAlias = (
    Nothing
    | SessionOpened
    | SessionMarked
    | DeviceJoined
    | GroupJoined
    | Why
    | ClockExtended
    | ClockMoved
    | ClueTaken
    | LockOpened
    | ItemFound
    | CodeTried
    | HintGiven
    | MishapNoted
    | MishapMended
    | NoteMade
    | GroupFinished
    | StepTicked
    | Undone
)

DATA: Mapping[str, type[Data]] = {
    "session.opened": SessionOpened,
    "session.closed": Nothing,
    "session.marked": SessionMarked,
    "device.joined": DeviceJoined,
    "group.joined": GroupJoined,
    "clock.started": Nothing,
    "clock.held": Why,
    "clock.resumed": Nothing,
    "clock.extended": ClockExtended,
    "clock.ended": Why,
    "clock.moved": ClockMoved,
    "clue.taken": ClueTaken,
    "lock.opened": LockOpened,
    "item.found": ItemFound,
    "code.tried": CodeTried,
    "hint.given": HintGiven,
    "mishap.noted": MishapNoted,
    "mishap.mended": MishapMended,
    "note.made": NoteMade,
    "group.finished": GroupFinished,
    "step.ticked": StepTicked,
    "undone": Undone,
}


def data_of(event: Event) -> Data:
    """Return what an event of the ledger says, which was checked when it came in."""
    return from_json(DATA[event.type], event.data)
