"""A game as some groups play it, the shelf, and a seed: together they make an edition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.codes import choose_code
from boxwright.choose.edition import Edition, EditionSheet, named
from boxwright.choose.fitting import Fitted
from boxwright.choose.marks import Triple, draw_triple, sheet_triples
from boxwright.choose.sheets import At, MadeSheet, Request, make_sheet, objection
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.game.arranged import ArrangedClue, ArrangedGame, Sharing
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code
from boxwright.problems import Problem, Refused, plain
from boxwright.puzzles.contract import Answer, Given

FIRST_SET = "a"


@dataclass(frozen=True, slots=True)
class Chance:
    """Whence all chance of an edition follows.

    `set` names the set of codes, which groups may share; `throws` tells how often the
    sheet of a clue was thrown anew, and leaves every other sheet as it is.
    """

    seed: int
    set: str = FIRST_SET
    throws: Mapping[str, int] = field(default_factory=dict)


def make_edition(
    folder: Folder,
    share: Sharing,
    fitted: Fitted,
    contents: Mapping[str, Content],
    chance: Chance,
) -> Edition:
    """Draw the codes and make every sheet for the groups of `share`.

    Args:
        folder: the game folder, for its room and for places in its files.
        share: the arranged game and its groups.
        fitted: what each lock can show, and its sticker.
        contents: what each clue draws on, by clue.
        chance: the seed, the set of codes, and which sheets were thrown anew.

    Raises:
        Refused: with everything that kept a code or a sheet from being made.
    """
    made = _Making(folder, share.game, fitted, contents, chance)
    drawn = made.codes()
    sheets = made.sheets(drawn)
    if made.problems:
        raise Refused(made.problems)
    return named(
        Edition(
            seed=chance.seed,
            set=chance.set,
            groups=share.groups,
            printing=made.printing(),
            game=share.game,
            chosen=share.game.chosen(),
            stickers=fitted.stickers,
            places={id: item.place for id, item in share.game.items.items()},
            codes=drawn,
            sheets=sheets,
        )
    )


class _Making:
    """The making of one edition; problems gather so that all are told at once."""

    def __init__(
        self,
        folder: Folder,
        game: ArrangedGame,
        fitted: Fitted,
        contents: Mapping[str, Content],
        chance: Chance,
    ) -> None:
        self.folder, self.game, self.fitted, self.contents = folder, game, fitted, contents
        self.dice, self.set, self.throws = Dice(chance.seed), chance.set, chance.throws
        self.problems: list[Problem] = []

    def printing(self) -> Triple:
        """Return the signs of this printing: those of this game, seed and set."""
        return draw_triple(self.dice.child("printing", self.game.id, self.set))

    def request(self, id: str, answer: Answer) -> Request:
        """Return what is asked of the kind of a clue."""
        clue = self.game.clues[id]
        given = Given(
            ages=self.game.ages,
            language=self.game.language,
            level=clue.level,
            content=self.contents.get(id, Content()),
            room=self.folder.room,
        )
        return Request(clue.kind, answer, clue.options, given)

    def at(self, id: str) -> At:
        """Return where the parts of a clue's version stand in the game file."""
        path = self.game.clues[id].source.path
        return lambda under: self.folder.where("game.toml", (*path, *under))

    def codes(self) -> dict[str, Code]:
        """Return a code for each lock that has one."""
        found: dict[str, Code] = {}
        for id, lock in self.game.locks.items():
            device = self.fitted.devices[id]
            where = self.folder.where("game.toml", ("locks", id, "code"))
            dice = self.dice.child("code", id, self.set)
            try:
                code = choose_code(lock, device, dice, where, self._carried(id))
            except Refused as refused:
                self.problems += refused.problems
                continue
            if code is not None:
                found[id] = code
        return found

    def _carried(self, lock: str) -> Callable[[Code], bool]:
        """Return a test: can the sheets that lead to `lock` carry this code?"""
        asked = [id for id, clue in self.game.clues.items() if clue.gives == lock]
        device = self.fitted.devices[lock]

        def carried(code: Code) -> bool:
            answer = answer_of(device, code)
            return answer is not None and all(
                objection(self.request(id, answer), self.at(id)) is None for id in asked
            )

        return carried

    def sheets(self, codes: Mapping[str, Code]) -> dict[str, EditionSheet]:
        """Return the sheet of each clue whose answer is known."""
        marks = sheet_triples(self.game.clues, self.dice)
        return {
            id: _kept(made, clue, marks[id], self.throws.get(id, 0))
            for id, clue, made in self._made(codes)
        }

    def _made(self, codes: Mapping[str, Code]) -> Iterator[tuple[str, ArrangedClue, MadeSheet]]:
        for id, clue in self.game.clues.items():
            answer = self.answer(clue, codes)
            if answer is None:
                continue
            dice = self.dice.child("sheet", id, clue.way, self.set, self.throws.get(id, 0))
            try:
                made = make_sheet(self.request(id, answer), dice, self.at(id))
            except Refused as refused:
                self.problems += refused.problems
            else:
                yield id, clue, made

    def answer(self, clue: ArrangedClue, codes: Mapping[str, Code]) -> Answer | None:
        """Return what a clue's sheet must lead to; None where its code could not be had."""
        if clue.leads_to == "lock":
            code = codes.get(clue.gives)
            return None if code is None else answer_of(self.fitted.devices[clue.gives], code)
        place = clue.gives
        if clue.leads_to == "item":
            place = self.game.items[clue.gives].place
        room = self.folder.room
        say = room.places[place].say if room is not None and place in room.places else None
        return None if say is None else answer_of_word(say)


def _kept(made: MadeSheet, clue: ArrangedClue, mark: Triple, throw: int) -> EditionSheet:
    parts = {
        part.name: clue.parts.get(part.name, clue.place)
        for part in made.kind.FACTS.parts
        if part.reader != "teacher"
    }
    return EditionSheet(clue.kind, mark, throw, plain(made.sheet), plain(made.knows), parts)
