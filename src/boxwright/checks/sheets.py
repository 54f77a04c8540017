"""The sheets of an edition as their kinds know them: opened and solved once for all checks."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

from boxwright.checks import About
from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.edition import Edition
from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.messages import words
from boxwright.problems import Basis, Problem, Where
from boxwright.puzzles.contract import Answer, GaveUp, Kind, Mistake, Solution
from boxwright.puzzles.shelf import kind
from boxwright.records import from_json

MOST = 5
"""So many answers of one sheet are looked for: enough to show that there are several."""


@frozen_value
class Opened:
    """One clue's sheet, read back from the edition, with the answer that it should have.

    `solutions` are those that the solver found, at most `MOST`; `complete` tells whether
    it looked to the end.
    """

    clue: str
    gives: str
    kind: Kind
    sheet: Any
    knows: Any
    answer: Answer | None
    code: Code | None
    where: Where
    solutions: tuple[Solution, ...]
    complete: bool

    @property
    def solution(self) -> Solution | None:
        """The solution that was meant; else the first, if there is any."""
        meant = (one for one in self.solutions if one.answer == self.answer)
        return next(meant, self.solutions[0] if self.solutions else None)

    @property
    def basis(self) -> Basis:
        """Whether the answer is computed from the page, or rests on what a teacher declared."""
        return basis_of(self.kind, self.sheet)

    def mistakes(self) -> Iterator[Mistake]:
        """Yield the likely wrong answers, as far as the kind gets."""
        if self.solution is None:
            return
        try:
            yield from self.kind.mistakes(self.sheet, self.knows, self.solution)
        except GaveUp:
            return

    def hints(self, language: str) -> tuple[str, ...]:
        """Return the hints that the kind makes; none where it cannot."""
        if self.solution is None:
            return ()
        try:
            hints = self.kind.hints(self.sheet, self.knows, self.solution)
        except GaveUp:
            return ()
        return tuple(words(hint, language) for hint in hints)

    def texts(self, part: str, language: str) -> dict[str, str]:
        """Return the sentences on a part, by the names under which its template knows them."""
        said = self.kind.words(self.sheet, part)
        return {name: words(message, language) for name, message in said.items()}

    def body(self, part: str) -> Any:
        """Return the printed facts of a part; None where the sheet has no such part."""
        return getattr(self.sheet, part.replace("-", "_"))

    def pupil_parts(self) -> tuple[str, ...]:
        """Return the parts that pupils hold in their hands."""
        parts = (part.name for part in self.kind.FACTS.parts if part.reader == "pupils")
        return tuple(part for part in parts if self.body(part) is not None)


def basis_of(kind: Kind, sheet: Any) -> Basis:
    """Return whether a sheet's answer is computed, or rests on what a teacher declared."""
    of_sheet = getattr(kind, "basis", None)
    found: Basis = kind.FACTS.basis if of_sheet is None else of_sheet(sheet)
    return found


def opened(edition: Edition, about: About) -> tuple[Opened, ...]:
    """Return every sheet of `edition`, solved."""
    return about.once(edition, _opened)


def _opened(edition: Edition, about: About) -> tuple[Opened, ...]:
    return tuple(_open(edition, about, id) for id in edition.sheets)


def _open(edition: Edition, about: About, id: str) -> Opened:
    kept, gives = edition.sheets[id], edition.game.clues[id].gives
    made = kind(kept.kind)
    sheet: Any = from_json(made.Sheet, kept.sheet)
    knows: Any = from_json(made.Knows, kept.knows)
    solutions, complete = _solved(made, sheet, knows)
    return Opened(
        clue=id,
        gives=gives,
        kind=made,
        sheet=sheet,
        knows=knows,
        answer=_answer(edition, about, gives),
        code=edition.codes.get(gives),
        where=about.where(*edition.game.clues[id].source.path),
        solutions=solutions,
        complete=complete,
    )


def _solved(made: Kind, sheet: Any, knows: Any) -> tuple[tuple[Solution, ...], bool]:
    found: list[Solution] = []
    try:
        found.extend(islice(made.solve(sheet, knows), MOST))  # keeps those before giving up
    except GaveUp:
        return tuple(found), False
    return tuple(found), True


def _answer(edition: Edition, about: About, gives: str) -> Answer | None:
    if gives in edition.codes:
        return answer_of(about.device(gives), edition.codes[gives])
    item, room = edition.game.items.get(gives), about.folder.room
    place = item.place if item is not None else gives
    word = room.places[place].say if room is not None and place in room.places else None
    return None if word is None else answer_of_word(word)


def code_of(device: Device, answer: Answer) -> Code | None:
    """Return what `answer` is on a lock; None where the lock cannot show it."""
    mechanism = entry(device)
    if mechanism.alphabet(device) != answer.alphabet:
        return None
    code: Code | Problem = answer.symbols
    if device.mechanism == "letter-wheels":  # shorter words are filled with blanks
        code = mechanism.read(device, "".join(answer.symbols), Where(""))
    if isinstance(code, Problem) or not mechanism.possible(device, code):
        return None
    return code
