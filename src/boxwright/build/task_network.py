"""An edition as a task network: what a forecast takes.

A clue is one task together with its lock, where a group that can solve the clue can get
at the lock as well. Else opening the lock is a task of its own, as is opening one with a
key: pupils may hold the code of a lock that still lies in a closed box.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import product
from typing import Protocol

from boxwright.checks.plan import sheet_s
from boxwright.choose.edition import Edition
from boxwright.choose.ways import part_name, ways_of
from boxwright.forecast.network import (
    NO_EFFORT,
    Entry,
    Hiding,
    Network,
    Task,
    Ways,
    Work,
    least,
)
from boxwright.game.arranged import ArrangedClue
from boxwright.game.hinting import hints_allowed
from boxwright.game.mechanisms import Device, device_of
from boxwright.problems import Where
from boxwright.puzzles.shelf import kind
from boxwright.records import from_json

OPEN = ("start", "table")
"""Where what lies is seen at once."""


class Devices(Protocol):
    """Whoever knows what the locks of a game can show."""

    def device(self, lock: str) -> Device:
        """Return what a lock's codes are."""


class AsWished:
    """Locks as a game wishes them: all that is known of them without its kit."""

    def __init__(self, edition: Edition) -> None:
        self.locks = edition.game.locks

    def device(self, lock: str) -> Device:
        """Return what a lock's codes are."""
        return device_of(self.locks[lock].shape, Where("game.toml", ("locks", lock)))


def network_of(edition: Edition, about: Devices) -> Network:
    """Return the game of `edition` as a group of its fewest pupils plays it."""
    game = edition.game
    tasks = _Tasks(edition, about)
    return Network(
        tasks=tuple(tasks.all()),
        goal=tasks.goal(),
        pupils=game.pupils[0],
        hints=hints_allowed(game),
        ages=game.ages,
    )


def other_tasks(network: Network, otherwise: Network) -> Iterator[Task]:
    """Yield the tasks of `network` as another arrangement of the same game has them.

    Only those whose work differs, and that stand where they stood.
    """
    known = {task.name: task for task in otherwise.tasks}
    for task in network.tasks:
        other = known.get(task.name, task)
        if other.work != task.work and (other.gives, other.needs) == (task.gives, task.needs):
            yield other


class _Tasks:
    """The tasks of one edition, and what each waits for."""

    def __init__(self, edition: Edition, about: Devices) -> None:
        self.edition, self.about, self.game = edition, about, edition.game
        self.ways: dict[str, list[frozenset[str]]] = {}
        for way in ways_of(edition):
            self.ways.setdefault(way.thing, []).append(way.needs)
        self.apart = {lock for lock in self.game.locks if self._stands_apart(lock)}

    def all(self) -> Iterator[Task]:
        """Yield every clue, then every lock that is a task of its own."""
        for id, clue in self.game.clues.items():
            work, needs = self._work(id, clue), self.needs_of(id)
            yield Task(id, self.given_by(id), work, needs, papers=self._papers(id))
        for id in self.game.locks:
            if id in self.apart:
                yield Task(id, id, self._key_work(id), self.needs_of(id), seats=1, hints=0)

    def goal(self) -> Ways:
        """Return what ends the game: any thing that wins; where none does, everything."""
        winning = [id for id, item in self.game.items.items() if item.wins]
        everything = frozenset((*map(self.given_by, self.game.clues), *self.apart))
        return least(way for id in winning for way in self.had(id)) if winning else (everything,)

    def given_by(self, clue: str) -> str:
        """Return what a clue's task gives: its lock, or only the knowledge of its answer."""
        gives = self.game.clues[clue].gives
        return gives if gives in self.game.locks and gives not in self.apart else clue

    def needs_of(self, thing: str) -> Ways:
        """Return what must be had before a clue or a lock can be worked at."""
        return least(
            way for needs in self.ways.get(thing, ()) for way in self._together(needs, (thing,))
        )

    def had(self, thing: str, above: tuple[str, ...] = ()) -> Ways:
        """Return the things given by tasks with which `thing` is had."""
        if thing in self.game.locks:
            return (frozenset({thing}),)
        if thing in self.game.clues:
            return (frozenset({self.given_by(thing)}),)
        if thing in above:
            return ()
        deeper = (*above, thing)
        found = (self._together(needs, deeper) for needs in self.ways.get(thing, ()))
        return least(way for ways in found for way in ways)

    def _together(self, needs: Iterable[str], above: tuple[str, ...]) -> Ways:
        """Return the ways to have all of `needs`."""
        choices = product(*(self.had(need, above) for need in sorted(needs)))
        return least(frozenset().union(*choice) for choice in choices)

    def _stands_apart(self, lock: str) -> bool:
        """Tell whether opening a lock is a task of its own."""
        clues = [id for id, clue in self.game.clues.items() if clue.gives == lock]
        near = self._bare(self.game.boxes[self.game.locks[lock].closes].place)
        return not clues or any(not _implied(self._bare(id), near) for id in clues)

    def _bare(self, thing: str) -> Ways:
        """Return the locks and clues with which `thing` can be got at."""
        plain = self.ways.get(thing)
        if plain is None:
            return (frozenset(),)
        found = []
        for needs in plain:
            parts = [
                (frozenset({need}),)
                if need in self.game.locks or need in self.game.clues
                else self._bare(need)
                for need in sorted(needs)
            ]
            found += [frozenset().union(*choice) for choice in product(*parts)]
        return least(found)

    def _work(self, id: str, clue: ArrangedClue) -> Work:
        sheet = self.edition.sheets.get(id)
        hiding = tuple(self._hidings(id, sheet.parts if sheet else {}, clue))
        lock = clue.gives if clue.gives in self.game.locks else None
        entry = self._entry(lock) if lock is not None and lock not in self.apart else None
        work = Work(NO_EFFORT, hiding, entry, clue.level, fetches=lock is None)
        one = kind(clue.kind)
        if sheet is None or one.FACTS.own:
            return replace(work, solving_s=float(sheet_s(clue.kind, clue.level)))
        return replace(work, effort=one.effort(from_json(one.Sheet, sheet.sheet)))

    def _papers(self, clue: str) -> int:
        sheet = self.edition.sheets.get(clue)
        return len(sheet.parts) if sheet else 0

    def _key_work(self, lock: str) -> Work:
        """Return what opening a lock alone takes: its key found, or its known code entered."""
        key = self.game.locks[lock].opened_by
        hiding = () if key is None else (self._hiding(key, self.game.items[key].place),)
        return Work(hiding=hiding, entry=self._entry(lock))

    def _entry(self, lock: str) -> Entry:
        device, mechanism = self.about.device(lock), self.game.locks[lock].mechanism
        symbols = len(self.edition.codes.get(lock, ())) or 1
        tries = device.wrong_tries if device.rests else 0
        return Entry(mechanism, symbols, tries, device.rest_s if tries else 0)

    def _hidings(self, id: str, parts: Mapping[str, str], clue: ArrangedClue) -> Iterator[Hiding]:
        for part, place in parts.items():
            yield self._hiding(part_name(id, part), place)
        for item in clue.needs:
            yield self._hiding(item, self.game.items[item].place)

    def _hiding(self, thing: str, place: str) -> Hiding:
        """Tell how a thing that lies somewhere is hidden."""
        if any(clue.gives in (thing, place) for clue in self.game.clues.values()):
            return "led"
        if place in self.game.boxes:
            return "box"
        return "given" if place in OPEN else "room"


def _implied(ways: Ways, near: Ways) -> bool:
    """Tell whether each of `ways` brings one of `near` along."""
    return all(any(one <= way for one in near) for way in ways)
