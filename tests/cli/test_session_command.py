"""`boxwright session`: the hour of one game, and nothing but a game."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from boxwright.cli.session_command import command
from boxwright.problems import Refused
from tests.games import DEMO, MADE


def test_it_opens_on_the_hour_of_the_game(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    served: list[tuple[Any, ...]] = []
    monkeypatch.setattr(
        "boxwright.cli.session_command.serve", lambda *args, **how: served.append((*args, how))
    )
    shutil.copytree(DEMO, tmp_path / "my game", ignore=MADE)
    done = CliRunner().invoke(
        command, [str(tmp_path / "my game"), "--port", "9000", "--ledger", "x.db", "--no-browser"]
    )
    assert done.exit_code == 0, done.output
    path = "/games/my%20game/hour"
    assert served == [(tmp_path.resolve(), path, 9000, "x.db", {"browser": False})]


def test_a_folder_without_a_game_is_refused(tmp_path: Path) -> None:
    done = CliRunner().invoke(command, [str(tmp_path)])
    assert isinstance(done.exception, Refused)
