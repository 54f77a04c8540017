"""A list to be ticked, as its page shows it: the card's lines, locks to look at, the lock book."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from boxwright.choose.card import Bunch, Line, Part, Section, card, tick_name, written
from boxwright.choose.failing import helping
from boxwright.choose.gear import Gear
from boxwright.choose.marks import Triple
from boxwright.choose.step_words import how, lock_named, said
from boxwright.choose.steps import Act, Step, Tick
from boxwright.ledger.lock_book import Book, LockRecord
from boxwright.live.checklist import Checklist
from boxwright.messages import words
from boxwright.paper.outs.lines import sentence
from boxwright.problems import Message, say
from boxwright.web.scene import drawing

ON_LOCKS: frozenset[Act] = frozenset(
    {"set", "test", "spare", "hang", "take-key", "scramble", "pull"}
)
"""What is done to one lock, where it may not do what it should."""


@dataclass(frozen=True)
class Lines:
    """The card of one printed set, ready to be shown; `groups` names it where there are several."""

    gear: Gear
    parts: tuple[Part, ...]
    groups: tuple[str, ...]
    book: Book

    def time(self, time: str) -> tuple[Bunch, ...]:
        """Return what is done at one time."""
        return next(part.bunches for part in self.parts if part.time == time)

    def title(self, section: Section) -> str:
        """Return what a section is about: a box with its stickers; nothing, if about none."""
        if not section.about:
            return ""
        stickers = (self.gear.sticker(group, section.about) for group in self.gear.edition.groups)
        tags = tuple(tag for tag in stickers if tag is not None)
        name = sentence(self.gear.edition.game.name_of(section.about))
        return words(say("page-set-up.box", name=name, tags=tags, n=len(tags))) if tags else name

    def row(self, line: Line) -> Row:
        """Return one line."""
        return Row(self, line)


@dataclass(frozen=True)
class Row:
    """One step: what it says, what belongs to it, its boxes to tick."""

    lines: Lines
    line: Line

    @property
    def _step(self) -> Step:
        return self.line.step

    @cached_property
    def text(self) -> str:
        """What is to be done."""
        return sentence(words(said(self.lines.gear, self._step)))

    @property
    def how(self) -> str:
        """How it is done, where that was not told before."""
        return " ".join(map(words, self.line.how))

    @property
    def mark(self) -> Triple | None:
        """The three signs of its sheet."""
        clue, _, part = self._step.thing.partition("/")
        return self.lines.gear.edition.sheets[clue].mark if part else None

    @property
    def ticks(self) -> tuple[Tick, ...]:
        """Its boxes to tick."""
        return self._step.ticks

    @property
    def id(self) -> str:
        """An id for its element."""
        return self.ticks[0].id

    def name(self, tick: Tick) -> str:
        """Return what stands at a box to tick."""
        found = tick_name(self.lines.gear, self._step, tick)
        return words(found) if isinstance(found, Message) else found

    @property
    def lock(self) -> str | None:
        """The lock that it is about, if it is about one that may not do what it should."""
        return self._step.thing if self._step.act in ON_LOCKS else None

    @property
    def act(self) -> Act:
        """What is done."""
        return self._step.act

    @property
    def drawn(self) -> bool:
        """Whether its lock is shown with its code."""
        return self.line.drawn

    def notes(self, ticked: Container[str]) -> Iterator[Message]:
        """Yield what is known of each lock that is still to be set: one must open it first."""
        if self.act != "set" or not self.lines.gear.edition.codes.get(self._step.thing):
            return
        told: dict[tuple[str, str], list[str]] = {}
        for tick in self.ticks:
            known = now(self.lines.gear, tick.groups[0], self._step.thing, self.lines.book)
            if known is not None and tick.id not in ticked:
                told.setdefault(known[:2], []).append(known[2])
        for (id, code), tags in told.items():
            yield say(f"page-set-up.{id}", code=code, tags=tuple(tags), n=len(tags))


def lines_of(todo: Checklist, book: Book) -> tuple[Lines, ...]:
    """Return each printed set's card; its groups are named where there are several."""
    several = len(todo.gears) > 1
    return tuple(
        Lines(gear, card(gear, steps), gear.edition.groups if several else (), book)
        for gear, steps in todo.steps
    )


# What a lock is set to at the moment.


def record_of(gear: Gear, group: str, lock: str, book: Book) -> LockRecord | None:
    """Return what the book holds of a group's real lock."""
    kit, tag = gear.folder.kit, gear.sticker(group, lock)
    return None if kit is None or tag is None else book.get((kit.kit.id, tag))


def now(gear: Gear, group: str, lock: str, book: Book) -> tuple[str, str, str] | None:
    """Return what opens a group's lock at the moment: how that is known, the code, the sticker."""
    make, tag = gear.make(group, lock), gear.sticker(group, lock)
    if make is None or tag is None or gear.devices[group][lock].fixed is not None:
        return None
    found = record_of(gear, group, lock, book)
    if found is None or found.meant is None:
        return None if make.shelf_code is None else ("rests-at", make.shelf_code, tag)
    if found.code is None:
        return "code-lost", found.meant, tag
    same = found.code == written(gear, lock)
    return "set-already" if same else "opens-with", found.code, tag


def set_otherwise(todo: Checklist, book: Book) -> Iterator[Message]:
    """Yield each lock that somebody set to something else since this printed set was played."""
    for gear in todo.gears:
        for lock in gear.edition.game.locks:
            for group in gear.edition.groups:
                found = record_of(gear, group, lock, book)
                if found is not None and found.code not in (None, written(gear, lock)):
                    code = found.code or ""
                    yield say("page-set-up.set-otherwise", tag=found.tag, code=code)


# A lock looked at closely.


@dataclass(frozen=True)
class Close:
    """A lock with its code, how it is set and tested, and what helps when it won't open."""

    gear: Gear
    lock: str

    @property
    def title(self) -> str:
        """Which lock it is."""
        return sentence(words(lock_named(self.gear.edition.game, self.lock)))

    @property
    def drawing(self) -> Mapping[str, Any]:
        """How it looks when it shows its code."""
        device = self.gear.devices[self.gear.edition.groups[0]][self.lock]
        return drawing(device, self.gear.edition.codes.get(self.lock))

    @property
    def code(self) -> str | None:
        """Its code in writing."""
        return written(self.gear, self.lock)

    @property
    def real(self) -> tuple[tuple[str, str], ...]:
        """The real ones: each one's kit, by its id, and its sticker."""
        kit, groups = self.gear.folder.kit, self.gear.edition.groups
        if kit is None:
            return ()
        found = (self.gear.sticker(group, self.lock) for group in groups)
        return tuple((kit.kit.id, tag) for tag in found if tag is not None and tag in kit.locks)

    def how(self, act: Act) -> tuple[Message, ...]:
        """Return how it is set, or tested."""
        return how(self.gear, Step("locks", act, self.lock, self.gear.edition.groups))

    @property
    def help(self) -> tuple[Message, ...]:
        """What helps when it won't open."""
        return (*helping(self.gear, self.lock), say("card.fail-last"))


def close_locks(todo: Checklist) -> dict[tuple[int, str], Close]:
    """Return every real lock of a list, by the number of its printed set and its id."""
    return {
        (at, lock): Close(gear, lock)
        for at, (gear, steps) in enumerate(todo.steps)
        for lock in dict.fromkeys(step.thing for step in steps if step.act in ON_LOCKS)
    }
