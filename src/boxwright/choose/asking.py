"""What the sheet of one clue is asked for, with all that its kind may draw on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.sheets import Request, kind_at, placed, read_options
from boxwright.content.lesson import asked_of
from boxwright.content.read import content_of
from boxwright.content.tables import Content
from boxwright.game.arranged import Arranged, ArrangedClue, ArrangedGame
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device
from boxwright.problems import Path, Problem, Refused, Where
from boxwright.puzzles.contract import Answer, Given, Kind

Contents = Mapping[tuple[str, str], Content]
"""What each clue draws on, by the clue and its way."""


def read_contents(folder: Folder, arranged: Arranged) -> Contents:
    """Return what each clue of each group draws on; raises Refused where that is at fault."""
    found: dict[tuple[str, str], Content] = {}
    for share in arranged.games:
        for id, clue in share.game.clues.items():
            content = drawn_on(folder, clue)
            if not isinstance(content, Content):
                raise Refused(content)
            found[id, clue.way] = content
    return found


def drawn_on(folder: Folder, clue: ArrangedClue) -> Content | tuple[Problem, ...]:
    """Return what one clue draws on, made fit for its kind; or what is at fault there."""
    content = content_of(folder, clue)
    if not isinstance(content, Content):
        return content
    return asked_of(content, folder.game.game.language)


@dataclass(frozen=True)
class Asking:
    """One clue of an arranged game, about to be made."""

    folder: Folder
    game: ArrangedGame
    id: str
    content: Content

    @property
    def clue(self) -> ArrangedClue:
        """The clue itself."""
        return self.game.clues[self.id]

    def at(self, under: Path) -> Where:
        """Return where a part of the clue's version stands in the game file."""
        return self.folder.where("game.toml", (*self.clue.source.path, *under))

    @cached_property
    def kind(self) -> Kind:
        """The kind that makes it; raises Refused where there is none of that name."""
        return kind_at(self.clue.kind, self.at)

    @cached_property
    def options(self) -> Any:
        """The options of the kind, as the file gives them; raises Refused where they are none."""
        return read_options(self.kind, self.clue.options, self.at)

    @cached_property
    def given(self) -> Given:
        """What the kind may draw on, but for a host's sheet."""
        return Given(
            ages=self.game.ages,
            language=self.game.language,
            level=self.clue.level,
            content=self.content,
            room=self.folder.room,
            pictures={name: one.size() for name, one in self.folder.pictures.items()},
        )

    def objection(self, answer: Answer) -> Problem | None:
        """Return why there can be no sheet for `answer`, at little cost."""
        problem = self.kind.refuse(answer, self.options, self.given)
        return None if problem is None else placed(problem, self.at)

    def request(self, answer: Answer, given: Given) -> Request:
        """Return the request for `answer`."""
        return Request(self.clue.kind, answer, self.clue.options, given)

    def answer(self, codes: Mapping[str, Code], devices: Mapping[str, Device]) -> Answer | None:
        """Return what the sheet must lead to; None where there is no such code or word."""
        gives = self.clue.gives
        if self.clue.leads_to == "lock":
            return answer_of(devices[gives], codes[gives]) if gives in codes else None
        place = self.game.items[gives].place if self.clue.leads_to == "item" else gives
        room = self.folder.room
        word = room.places[place].say if room is not None and place in room.places else None
        return None if word is None else answer_of_word(word)
