"""The sheets of an edition as their kinds know them: shared by the checks that read sheets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any

from boxwright.checks import About
from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code
from boxwright.messages import words
from boxwright.problems import Where
from boxwright.puzzles.contract import Answer, GaveUp, Kind, Solution
from boxwright.puzzles.sheet_json import from_json
from boxwright.puzzles.shelf import kind


@dataclass(frozen=True, slots=True)
class Opened:
    """One clue's sheet, read back from the edition, with the answer that it should have."""

    clue: str
    gives: str
    kind: Kind
    sheet: Any
    knows: Any
    answer: Answer | None
    code: Code | None
    where: Where

    def solution(self) -> Solution | None:
        """Return the first solution, if the solver finds one."""
        try:
            return next(islice(self.kind.solve(self.sheet, self.knows), 1), None)
        except GaveUp:
            return None


def opened(edition: Edition, about: About) -> Iterator[Opened]:
    """Yield every sheet of `edition`."""
    for id, kept in edition.sheets.items():
        made, gives = kind(kept.kind), edition.game.clues[id].gives
        yield Opened(
            clue=id,
            gives=gives,
            kind=made,
            sheet=from_json(made.Sheet, kept.sheet),
            knows=from_json(made.Knows, kept.knows),
            answer=_answer(edition, about, gives),
            code=edition.codes.get(gives),
            where=about.where(*edition.game.clues[id].source.path),
        )


def _answer(edition: Edition, about: About, gives: str) -> Answer | None:
    if gives in edition.codes:
        return answer_of(about.device(gives), edition.codes[gives])
    item, room = edition.game.items.get(gives), about.folder.room
    place = item.place if item is not None else gives
    word = room.places[place].say if room is not None and place in room.places else None
    return None if word is None else answer_of_word(word)


def texts_of(one: Opened, part: str, language: str) -> dict[str, str]:
    """Return the sentences on a part, by the names under which its template knows them."""
    said = one.kind.words(one.sheet, part)
    return {name: words(message, language) for name, message in said.items()}


def pupil_parts(one: Opened) -> tuple[str, ...]:
    """Return the parts of a sheet that pupils hold in their hands."""
    return tuple(
        part.name
        for part in one.kind.FACTS.parts
        if part.reader == "pupils" and getattr(one.sheet, part.name.replace("-", "_")) is not None
    )
