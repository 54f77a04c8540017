"""The game that an address names, opened: its files as they are, and what was worked out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as File
from typing import Annotated, Any, TypeVar
from urllib.parse import quote

from fastapi import Depends, HTTPException, Path
from starlette.requests import HTTPConnection

from boxwright.build import Asked, Built, build, judged, read
from boxwright.build.current import Stale, Standing, standing
from boxwright.build.throwing import chance_shown
from boxwright.choose.chance import Chance
from boxwright.choose.store import EDITIONS
from boxwright.game.choosing import Wishes
from boxwright.game.folder import Folder
from boxwright.game.history import History, Moment
from boxwright.problems import Problem, Refused
from boxwright.text import content_id
from boxwright.web import contents
from boxwright.web.studio import Studio
from boxwright.web.wishes import Wished, query_of

SEED = 1  # while nothing is printed, the same game shows the same sheets
FIRST = Chance(SEED)
T = TypeVar("T")


class FaultyGame(Refused):
    """The game's files have faults: until they are mended there is nothing else to show."""


@dataclass(frozen=True)
class Game:
    """A game folder as a page shows it, under the wishes in the address.

    `moment` says which state of the files that is, and what can be undone.
    """

    studio: Studio
    name: str
    path: File
    history: History
    moment: Moment
    wishes: Wishes

    @property
    def tag(self) -> str:
        """What the files hold, in short: another tag, other files."""
        return self.moment.tag

    @cached_property
    def read(self) -> Folder | tuple[Problem, ...]:
        """The folder, or every fault in its files."""
        key = ("read", self.path, self.tag)
        return self.studio.memory.recall(key, lambda: _or_problems(lambda: read(self.path)))

    @property
    def title(self) -> str:
        """The game's title; its folder's name where its files cannot be read."""
        return self.name if isinstance(self.read, tuple) else self.read.game.game.title

    @property
    def faults(self) -> tuple[Problem, ...]:
        """Every fault in its files."""
        return self.read if isinstance(self.read, tuple) else ()

    @property
    def folder(self) -> Folder:
        """The folder; raises FaultyGame with every fault in its files."""
        if isinstance(self.read, tuple):
            raise FaultyGame(self.read)
        return self.read

    @cached_property
    def built(self) -> Built | tuple[Problem, ...]:
        """The game made concrete as wished, and checked; or what bars the way.

        It is the printed set that was kept, as long as nothing has changed since and nothing
        else is wished; else the one that would be made now. Nothing is written.
        """
        found = self.standing
        if isinstance(found, tuple):
            return found
        if isinstance(found, Standing) and self.wishes == Wishes():
            return self.kept(found)
        return self.made(Asked(self.path, self.wishes, self.chance))

    @cached_property
    def standing(self) -> Standing | Stale | tuple[Problem, ...]:
        """The printed set that was kept, or why it is none of the game as it is; or what is wrong.

        Wishes in the address count for nothing here.
        """
        return self.recall("standing", (), lambda: _or_problems(lambda: standing(self.path)))

    def kept(self, found: Standing) -> Built:
        """Return the printed set that was kept, checked."""
        return self.recall("kept", (), lambda: judged(found.folder, found.editions))

    def made(self, asked: Asked) -> Built | tuple[Problem, ...]:
        """Return a printed set of the game as it is, checked and not kept; or what bars the way."""
        return self.recall("made", asked, lambda: _or_problems(lambda: build(asked)))

    def recall(self, what: str, more: Any, work: Callable[[], T]) -> T:
        """Return what follows from the game as it is and its printed set, worked out once."""
        key = (what, self.path, self.tag, self.printed_at, repr(more))
        return self.studio.memory.recall(key, work)

    @property
    def chance(self) -> Chance:
        """The dice of the printed set, or of the one to come."""
        key = ("chance", self.path, self.printed_at)
        return self.studio.memory.recall(key, lambda: chance_shown(self.path, FIRST))

    @cached_property
    def printed_at(self) -> str:
        """What tells that another printed set was kept, or something for it, or is gone."""
        files = (self.path / EDITIONS).glob("*.json")
        return content_id({file.name: file.stat().st_mtime_ns for file in files})

    @property
    def home(self) -> str:
        """Where its addresses begin; what is wished of it counts for nothing in play."""
        return f"/games/{quote(self.name, safe='')}"

    def address(self, stem: str, *more: str) -> str:
        """Return the address of one of this game's pages, its wishes kept."""
        entry = next(one for one in contents.CONTENTS if one.stem == stem)
        path = entry.path.replace(contents.GAME, self.home)
        return "/".join((path, *(quote(one, safe="") for one in more))) + query_of(self.wishes)


def _or_problems(work: Callable[[], T]) -> T | tuple[Problem, ...]:
    try:
        return work()
    except Refused as refused:
        return refused.problems


def studio_of(request: HTTPConnection) -> Studio:
    """Return the studio that answers."""
    studio: Studio = request.app.state.studio
    return studio


TheStudio = Annotated[Studio, Depends(studio_of)]


def open_game(
    studio: TheStudio, wishes: Wished, game: Annotated[str, Path(max_length=120)]
) -> Game:
    """Return the game that the address names; 404 where there is none."""
    path = studio.folder(game)
    if path is None:
        raise HTTPException(404)
    history = History(path)
    return Game(studio, game, path, history, history.now(), wishes)


TheGame = Annotated[Game, Depends(open_game)]
