"""A way to perform commands on the sample game, and to see what they left."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from difflib import ndiff
from pathlib import Path
from typing import Any

import pytest

from boxwright.game.commands import perform
from boxwright.game.folder import Folder, read_game
from boxwright.game.history import History, Moment
from boxwright.game.owned import manifest
from boxwright.problems import Problem, Refused


class Player:
    """Performs commands on one game folder, each followed by undo and redo."""

    def __init__(self, folder: Path) -> None:
        """Take up the game in `folder`."""
        self.folder = folder
        self.history = History(folder)

    def __call__(self, command: str, /, **args: Any) -> str:
        """Perform a command; it undoes to the very bytes. Return the id that it is about."""
        before = self.files()
        moment = perform(self.history, command, args, self.history.now().tag)
        after = self.files()
        moment = self.history.undo(moment.tag)
        assert self.files() == before
        moment = self.history.redo(moment.tag)
        assert self.files() == after
        assert isinstance(read_game(self.folder), Folder)
        assert moment.undo is not None
        return str(moment.undo.args.get("id", ""))

    def refused(self, command: str, /, **args: Any) -> Problem:
        """Return the first problem for which a command is refused; nothing was written."""
        before = self.files()
        with pytest.raises(Refused) as caught:
            perform(self.history, command, args, self.history.now().tag)
        assert self.files() == before
        return caught.value.problems[0]

    def files(self) -> Mapping[str, bytes]:
        """Return the bytes of all files of the game's own."""
        return {name: (self.folder / name).read_bytes() for name in manifest(self.folder)}

    def text(self, file: str = "game.toml") -> str:
        """Return a file as text."""
        return (self.folder / file).read_text("utf-8")

    def data(self, file: str = "game.toml") -> dict[str, Any]:
        """Return what a file says."""
        return tomllib.loads(self.text(file))

    def lines(self, command: str, /, **args: Any) -> list[str]:
        """Perform a command; return the lines of TOML that came (+) and went (-)."""
        before = self._lines()
        self(command, **args)
        return [line for line in ndiff(before, self._lines()) if line[:1] in ("+", "-")]

    def _lines(self) -> list[str]:
        names = (name for name in self.files() if name.endswith(".toml"))
        return [line for name in names for line in self.text(name).splitlines()]


@pytest.fixture
def play(sample: Path) -> Player:
    """Performs commands on the sample game."""
    return Player(sample)


@pytest.fixture
def moment(play: Player) -> Moment:
    """How the sample game stands."""
    return play.history.now()
