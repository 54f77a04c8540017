"""What is being printed: an edition with all that pages say about it, in its language."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar

from boxwright.choose.edition import Edition, EditionSheet
from boxwright.choose.gear import Gear
from boxwright.choose.marks import NO_SHEET, Mark
from boxwright.choose.step_words import place_named
from boxwright.choose.ways import ways_of
from boxwright.frozen import frozen_value
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Device, entry
from boxwright.game.model import START, TABLE
from boxwright.game.unlocking import waves
from boxwright.messages import words
from boxwright.paper.frame import Look
from boxwright.paper.lock_pictures import with_code
from boxwright.paper.page import Page
from boxwright.problems import Arg, Message, Where, plain, say
from boxwright.puzzles.contract import GaveUp, Kind, Reader, Solution
from boxwright.puzzles.shelf import kind
from boxwright.records import from_json

HERE = Path(__file__).parent
T = TypeVar("T")


@frozen_value
class File:
    """One file of a print-out that makes several; `suffix` goes behind the print-out's name."""

    reader: Reader
    pages: tuple[Page, ...]
    suffix: str = ""


@dataclass(frozen=True)
class Printing:
    """One edition about to be printed, its folder, and how pages are to look."""

    folder: Folder
    edition: Edition
    look: Look
    pupils: Look | None = None
    """How the pupils' sheets look, where the pages at hand look otherwise."""
    known: dict[tuple[str, ...], Any] = field(default_factory=dict, compare=False, repr=False)
    """What was worked out already, by `once`; a copy with another look shares it."""

    def once(self, key: tuple[str, ...], work: Callable[[], T]) -> T:
        """Return `work()`, worked out once for each `key`, however many pages ask."""
        if key not in self.known:
            self.known[key] = work()
        found: T = self.known[key]
        return found

    @property
    def language(self) -> str:
        """The language of all that is printed (BCP 47)."""
        return self.edition.game.language

    @property
    def sheets_look(self) -> Look:
        """How the pupils' sheets look."""
        return self.pupils or self.look

    @cached_property
    def gear(self) -> Gear:
        """The real things of the edition."""
        return Gear(self.edition, self.folder)

    @cached_property
    def devices(self) -> Mapping[str, Device]:
        """What each lock's codes are, as the first group has it."""
        return self.gear.devices[self.edition.groups[0]]

    @cached_property
    def order(self) -> tuple[str, ...]:
        """All clues with sheets, in the order in which they can be solved."""
        had = [thing for wave in waves(ways_of(self.edition)) for thing in wave]
        return tuple(sorted(self.edition.sheets, key=lambda clue: _rank(had, clue)))

    def said(self, message: Message) -> str:
        """Return `message` in the language of the print-outs."""
        return words(message, self.language)

    def read(self, name: str | Message) -> str:
        """Return a name that somebody gave as it is, one of ours in the print-outs' language."""
        return self.said(name) if isinstance(name, Message) else name

    def text(self, message_id: str, /, **args: Arg) -> str:
        """Return the message `message_id` in the language of the print-outs."""
        return self.said(say(message_id, **args))

    def place(self, place: str) -> str:
        """Return how a person calls a box, a place of the room, the table or the start."""
        if place in (START, TABLE):
            return self.text(f"printout.place-{place}")
        return str(place_named(self.gear, place))

    def picture(self, lock: str) -> dict[str, Any]:
        """Return a lock as it shows its code."""
        return with_code(self.devices[lock], self.edition.codes.get(lock, ()))

    def solution(self, clue: str) -> Solution | None:
        """Return the one solution of a clue's sheet; None where its solver gives up."""
        return self.once(("solution", clue), lambda: _solution(*self.sheet(clue)))

    def written(self, lock: str) -> str | None:
        """Return a lock's code in its written form; None for one without a code."""
        code = self.edition.codes.get(lock)
        return None if code is None else entry(self.devices[lock]).write(self.devices[lock], code)

    def stickers(self, id: str) -> tuple[str, ...]:
        """Return the stickers of a box, lock or item, group by group; none without a kit."""
        labels = (self.gear.label(group, id) for group in self.edition.groups)
        return tuple(self.read(label) for label in labels if label)

    def sheet(self, clue: str) -> tuple[Kind, Any, Any]:
        """Return a clue's kind, its sheet, and what it knows."""
        return self.once(("sheet", clue), lambda: _sheet(self.edition.sheets[clue]))

    def page(
        self,
        name: str,
        *,
        title: str,
        alt: str,
        sheet: Mapping[str, Any],
        labels: Mapping[str, str] | None = None,
        prints: Iterable[str] = (),
        **more: Any,
    ) -> Page:
        """Return a page drawn by this folder's template `name`.

        `sheet` is its data, `labels` its fixed words, `prints` the texts of `sheet` that
        must be read on the finished page; `more` goes to `Page` as it is. A page for the
        teacher gets the words of its edge strip.
        """
        strip = {"teacher": self.text("paper.teacher")} if more.get("reader") == "teacher" else {}
        return Page(
            template=HERE / f"{name}.typ",
            part=name,
            sheet=plain(sheet),
            words=dict(labels or {}) | strip,
            title=title,
            alt=alt,
            prints=tuple(prints),
            mark=Mark(self.edition.printing, NO_SHEET),
            where=more.pop("where", Where("game.toml")),
            **more,
        )


def _sheet(kept: EditionSheet) -> tuple[Kind, Any, Any]:
    made = kind(kept.kind)
    return made, from_json(made.Sheet, kept.sheet), from_json(made.Knows, kept.knows)


def _solution(made: Kind, sheet: Any, knows: Any) -> Solution | None:
    try:
        return next(made.solve(sheet, knows), None)
    except GaveUp:
        return None


def _rank(had: list[str], clue: str) -> int:
    return had.index(clue) if clue in had else len(had)
