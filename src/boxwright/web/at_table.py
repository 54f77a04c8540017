"""One table close by, for the teacher: each clue's sheets, answer, hints and usual mistakes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from boxwright.choose.edition import Edition
from boxwright.game.folder import Folder
from boxwright.live.naming import Named, named_code, named_word
from boxwright.live.noted import Group
from boxwright.live.table import ClueView, ItemView, LockView, Table, table_of
from boxwright.paper.frame import Look, size_for
from boxwright.paper.outs import clues
from boxwright.paper.outs.lines import sentence
from boxwright.paper.outs.printing import Printing
from boxwright.paper.page import Page
from boxwright.paper.solved import Solved
from boxwright.problems import Where, say
from boxwright.web.scene import drawing

IN_HAND = ("ready", "taken")


@dataclass(frozen=True, slots=True)
class HintLine:
    """A line (from 1) of a clue's hints, and whether the table got it."""

    line: int
    text: str
    given: bool


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that can go wrong, by its id, and what it is called."""

    id: str
    name: str


@dataclass(frozen=True)
class Close:
    """A group's edition with all that is known of its sheets."""

    printing: Printing
    group: str

    @property
    def edition(self) -> Edition:
        """What the group plays."""
        return self.printing.edition

    def pages(self, clue: str) -> tuple[Page, ...]:
        """Return the pupils' pages of a clue.

        There are none for a clue without a sheet, nor where a picture that was on it is gone.
        """
        if clue not in self.edition.sheets:
            return ()
        try:
            return clues.part_pages(self.printing, clue)
        except (KeyError, OSError):
            return ()

    def solved(self, clue: str) -> Solved:
        """Return a clue's sheet with its solution, for this very group's lock."""
        gives = self.edition.game.clues[clue].gives
        device = self.printing.gear.devices[self.group].get(gives)
        return replace(clues.solved(self.printing, clue), device=device)

    def answer(self, clue: str) -> str:
        """Return a clue's answer in writing."""
        return clues.answer(self.printing, clue, self.printing.solution(clue))

    def named(self, clue: str, text: str) -> Named:
        """Return what an answer is that was brought; Refused where it can be none."""
        solved, gives, where = (
            self.solved(clue),
            self.edition.game.clues[clue].gives,
            Where("", ("text",)),
        )
        code = self.edition.codes.get(gives)
        if code is not None:
            return named_code(solved, code, text, where)
        return named_word(solved, self.answer(clue), text, where)

    def things(self) -> Iterator[Thing]:
        """Yield all that can jam, tear, get lost or be given away."""
        game = self.edition.game
        for id in game.locks:
            yield Thing(id, self.lock_name(id))
        for id in (*game.boxes, *game.items):
            yield Thing(id, game.name_of(id))
        for id in game.clues:
            yield Thing(id, self.printing.text("page-hour.sheet-of", clue=id))

    def lock_name(self, lock: str) -> str:
        """Return how a person calls a lock: what it is, its sticker, the box that it closes."""
        one, tag = self.edition.game.locks[lock], self.printing.gear.label(self.group, lock)
        named, box = say(f"mechanism.name-{one.mechanism}"), self.edition.game.name_of(one.closes)
        if not tag:
            return self.printing.text("printout.opens-bare", lock=named, box=box)
        return self.printing.text("printout.opens", lock=named, tags=(tag,), box=box)


def close(folder: Folder, edition: Edition, group: str) -> Close:
    """Return a group's edition for a close look."""
    look = Look("a4", size_for(edition.game.ages), edition.game.language)
    return Close(Printing(folder, edition, look), group)


@dataclass(frozen=True)
class Card:
    """One clue as a table has it."""

    close: Close
    table: Table
    group: Group
    clue: str

    @property
    def view(self) -> ClueView:
        """How it stands."""
        return self.table.clues[self.clue]

    @property
    def signs(self) -> tuple[str, ...]:
        """The signs in the foot of its sheets."""
        sheet = self.close.edition.sheets.get(self.clue)
        return () if sheet is None else tuple(map(str, sheet.mark))

    @cached_property
    def alts(self) -> tuple[str, ...]:
        """What each of its pages shows."""
        return tuple(page.alt for page in self.close.pages(self.clue))

    @property
    def pages(self) -> range:
        """The numbers of its pages, from 1."""
        return range(1, len(self.alts) + 1)

    @property
    def opens(self) -> str:
        """What its answer opens, or where it leads."""
        if self.view.gives in self.close.edition.game.locks:
            return sentence(self.close.lock_name(self.view.gives))
        return sentence(clues.opens(self.close.printing, self.clue))

    @property
    def answer(self) -> str:
        """Its answer in writing."""
        return self.close.answer(self.clue)

    @property
    def lock(self) -> dict[str, Any] | None:
        """The lock that its answer opens, drawn with its code."""
        device = self.close.printing.gear.devices[self.group.id].get(self.view.gives)
        code = self.close.edition.codes.get(self.view.gives)
        return None if device is None or code is None else drawing(device, code)

    @property
    def locks(self) -> tuple[LockView, ...]:
        """The lock that it opens, if it does."""
        lock = self.table.locks.get(self.view.gives)
        return () if lock is None else (lock,)

    @property
    def items(self) -> tuple[ItemView, ...]:
        """The item that it leads to, if it does."""
        item = self.table.items.get(self.view.gives)
        return () if item is None else (item,)

    @property
    def hints(self) -> tuple[HintLine, ...]:
        """Its hints, with those that the table got."""
        if self.clue not in self.close.edition.sheets:
            return ()
        texts = clues.hints(self.close.printing, self.clue)
        return tuple(
            HintLine(line, text, self.group.hint(self.clue, line) is not None)
            for line, text in enumerate(texts, start=1)
        )

    @property
    def mistakes(self) -> tuple[tuple[str, str], ...]:
        """All usual wrong answers, each with what it means."""
        if self.clue not in self.close.edition.sheets:
            return ()
        solved, said = self.close.solved(self.clue), self.close.printing.said
        return tuple(
            (solved.spelled(one.answer), sentence(said(one.means))) for one in solved.wrong()
        )


def table_values(close: Close, group: Group) -> dict[str, Any]:
    """Return what a table close by shows."""
    table = table_of(group, close.edition)
    order = dict.fromkeys((*close.printing.order, *table.clues))
    cards = [Card(close, table, group, clue) for clue in order]
    standing = {one.clue: one.view.standing for one in cards}
    wins = (item.name for item in table.items.values() if item.wins and item.had_ms is not None)
    return {
        "group": group,
        "won": table.won,
        "prizes": tuple(wins),
        "in_hand": [one for one in cards if standing[one.clue] in IN_HAND],
        "waiting": [one for one in cards if standing[one.clue] == "waiting"],
        "solved": [one for one in cards if standing[one.clue] == "solved"],
        "keys": tuple(_bare_locks(close, table)),
        "things": tuple(close.things()),
    }


def _bare_locks(close: Close, table: Table) -> Iterator[Thing]:
    """Yield locks that no clue leads to and that are not open: those with keys."""
    for lock in table.locks.values():
        if not lock.clues and lock.opened is None:
            yield Thing(lock.id, sentence(close.lock_name(lock.id)))
