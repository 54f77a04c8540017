"""The game that an address names, opened: its files as they are, and what was worked out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as File
from typing import Annotated
from urllib.parse import quote

from fastapi import Depends, HTTPException, Path
from starlette.requests import HTTPConnection

from boxwright.build import Asked, Built, build, judged, read
from boxwright.build.current import Standing, standing
from boxwright.build.throwing import chance_shown
from boxwright.choose.chance import Chance
from boxwright.choose.store import CURRENT, EDITIONS, TO_COME
from boxwright.game.choosing import Wishes
from boxwright.game.folder import Folder
from boxwright.game.history import History, Moment
from boxwright.problems import Problem, Refused
from boxwright.web import contents
from boxwright.web.studio import Studio
from boxwright.web.wishes import Wished, query_of

SEED = 1  # while nothing is printed, the same game shows the same sheets
FIRST = Chance(SEED)


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
        return self.studio.memory.recall(("read", self.path, self.tag), self._read)

    def _read(self) -> Folder | tuple[Problem, ...]:
        try:
            return read(self.path)
        except Refused as refused:
            return refused.problems

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
        key = ("built", self.path, self.tag, repr(self.wishes), self.printed_at)
        return self.studio.memory.recall(key, self._build)

    def _build(self) -> Built | tuple[Problem, ...]:
        try:
            found = standing(self.path)
            if isinstance(found, Standing) and self.wishes == Wishes():
                return judged(found.folder, found.editions, None)
            return build(Asked(self.path, self.wishes, self.chance))
        except Refused as refused:
            return refused.problems

    @property
    def chance(self) -> Chance:
        """The dice of the printed set, or of the one to come."""
        key = ("chance", self.path, self.printed_at)
        return self.studio.memory.recall(key, lambda: chance_shown(self.path, FIRST))

    @cached_property
    def printed_at(self) -> tuple[int, ...]:
        """When the printed set was last kept, or something for it, in nanoseconds."""
        files = (self.path / EDITIONS / name for name in (CURRENT, TO_COME))
        return tuple(file.stat().st_mtime_ns if file.is_file() else 0 for file in files)

    def address(self, stem: str, *more: str) -> str:
        """Return the address of one of this game's pages, its wishes kept."""
        entry = next(one for one in contents.CONTENTS if one.stem == stem)
        path = entry.path.replace("{game}", quote(self.name, safe=""))
        return "/".join((path, *(quote(one, safe="") for one in more))) + query_of(self.wishes)


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
