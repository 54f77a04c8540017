"""A game as some groups play it, and the codes: together they make an edition."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from boxwright.choose.asking import Asking, Contents
from boxwright.choose.chance import Chance
from boxwright.choose.codes import written_codes
from boxwright.choose.drawing import draw_codes
from boxwright.choose.edition import Edition, EditionSheet, named, order_of
from boxwright.choose.fitting import Fitted
from boxwright.choose.marks import Triple, draw_triple, sheet_triples
from boxwright.choose.sheets import MadeSheet, make_sheet
from boxwright.content.tables import Content
from boxwright.frozen import frozen_value
from boxwright.game.arranged import Arranged, ArrangedClue, ArrangedGame, Sharing
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device
from boxwright.problems import Problem, Refused, plain

T = TypeVar("T")
REDRAWS = 60
"""How often the code of a lock may be drawn again for the sake of a host's sheet."""


def make_editions(
    folder: Folder, arranged: Arranged, fitted: Fitted, contents: Contents, chance: Chance
) -> list[Edition]:
    """Draw one set of codes and make the editions of all groups.

    Raises:
        Refused: with everything that kept a code or a sheet from being made.
    """

    def made(now: Chance) -> list[Edition]:
        codes = draw_codes(folder, arranged, fitted, contents, now)
        return [
            named(make_edition(folder, share, fitted, codes, contents, now))
            for share in arranged.games
        ]

    return redrawing(arranged, chance, made)


def redrawing(arranged: Arranged, chance: Chance, make: Callable[[Chance], T]) -> T:
    """Return what `make` gives, with codes drawn again where guests' sheets want it.

    A sheet that is drawn on another's can carry what that one leaves room for, which is
    known only once that one is made: then its lock's code is drawn again, where it may be.
    """
    redraws: dict[str, int] = {}
    while True:
        try:
            return make(replace(chance, redraws=redraws))
        except Refused as refused:
            locks = _redrawable(arranged, refused)
            if not locks or sum(redraws.values()) >= REDRAWS:
                raise
            redraws = redraws | {lock: redraws.get(lock, 0) + 1 for lock in locks}


def _redrawable(arranged: Arranged, refused: Refused) -> set[str]:
    """Return the locks whose drawn codes their guest sheets could not carry, if that is all."""
    locks: set[str] = set()
    for problem in refused.problems:
        guests = {
            clue.gives
            for share in arranged.games
            for clue in share.game.clues.values()
            if clue.on is not None
            and problem.where.path[: len(clue.source.path)] == clue.source.path
            and clue.gives in share.game.locks
            and len(written_codes(share.game.locks[clue.gives].code)) != 1
        }
        if not guests:
            return set()
        locks |= guests
    return locks


def make_edition(
    folder: Folder,
    share: Sharing,
    fitted: Fitted,
    codes: Mapping[str, Code],
    contents: Contents,
    chance: Chance,
    *,
    only: str | None = None,
) -> Edition:
    """Make every sheet for the groups of `share`; the edition has no name yet.

    Args:
        folder: the game folder, for its room and for places in its files.
        share: the arranged game and its groups.
        fitted: what each group's locks can show, and their stickers.
        codes: the code of each lock.
        contents: what each clue draws on.
        chance: the seed, the set of codes, and which sheets were thrown anew.
        only: a clue whose sheet is wanted alone, with those that it is drawn on.

    Raises:
        Refused: with everything that kept a sheet from being made.
    """
    game = share.game
    printing = draw_triple(chance.dice.child("printing", game.id, chance.set, *share.groups))
    marks = sheet_triples(game.clues, chance.dice)
    clues = _Askings(folder, game, contents, codes, fitted.devices[share.groups[0]])
    made = clues.made(chance, hosts_first(game, only))
    return Edition(
        seed=chance.seed,
        set=chance.set,
        groups=share.groups,
        printing=printing,
        game=game,
        chosen=game.chosen(),
        stickers={group: fitted.stickers.get(group, {}) for group in share.groups},
        places={id: item.place for id, item in game.items.items()},
        codes={id: code for id, code in codes.items() if id in game.locks},
        sheets={
            id: _kept(made[id], game.clues[id], marks[id], chance.throws.get(id, 0))
            for id in game.clues
            if id in made
        },
        order=order_of(game),
    )


@frozen_value
class _Askings:
    """The clues of one game, about to be made for its codes."""

    folder: Folder
    game: ArrangedGame
    contents: Contents
    codes: Mapping[str, Code]
    devices: Mapping[str, Device]

    def made(self, chance: Chance, clues: Iterable[str]) -> dict[str, MadeSheet]:
        """Return the sheets of `clues`, each after its host's; Refused with all that failed."""
        problems: list[Problem] = []
        made: dict[str, MadeSheet] = {}
        for id in clues:
            asked = self.of(id)
            answer = asked.answer(self.codes, self.devices)
            if answer is None:
                continue
            try:
                given = replace(asked.given, host=_host(asked.clue, made))
                request = asked.request(answer, given)
                made[id] = make_sheet(request, _dice(self.game, id, chance), asked.at)
            except Refused as refused:
                problems += refused.problems
        if problems:
            raise Refused(problems)
        return made

    def of(self, id: str) -> Asking:
        """Return one clue with what it draws on."""
        content = self.contents.get((id, self.game.clues[id].way), Content())
        return Asking(self.folder, self.game, id, content)


def hosts_first(game: ArrangedGame, only: str | None = None) -> Iterator[str]:
    """Yield every clue, or one, each after the one whose sheet it is drawn on."""
    given: set[str] = set()

    def with_hosts(id: str) -> Iterator[str]:
        host = game.clues[id].on
        given.add(id)
        if host is not None and host in game.clues and host not in given:
            yield from with_hosts(host)
        yield id

    for id in game.clues if only is None else (only,):
        if id not in given:
            yield from with_hosts(id)


def _host(clue: ArrangedClue, made: Mapping[str, MadeSheet]) -> Any:
    return made[clue.on].sheet if clue.on is not None and clue.on in made else None


def _dice(game: ArrangedGame, id: str, chance: Chance) -> Any:
    """Return the dice of a clue's sheet: its own, and new with every new throw of its host."""
    line: list[str | int] = []
    one: str | None = id
    while one is not None and one in game.clues and one not in line:
        line += [one, game.clues[one].way, chance.throws.get(one, 0)]
        one = game.clues[one].on
    return chance.dice.child("sheet", chance.set, *line)


def _kept(made: MadeSheet, clue: ArrangedClue, mark: Triple, throw: int) -> EditionSheet:
    parts = {
        part.name: clue.parts.get(part.name, clue.place)
        for part in made.kind.FACTS.parts
        if part.reader != "teacher" and getattr(made.sheet, part.name.replace("-", "_")) is not None
    }
    sheet, knows = plain(made.sheet), plain(made.knows)
    return EditionSheet(clue.kind, mark, throw, sheet, knows, dict(sorted(parts.items())))
