"""`boxwright studio`: which folder it opens, where it listens, what it says when it cannot."""

from __future__ import annotations

import shutil
import socket
from pathlib import Path

import pytest

from boxwright.cli.studio_command import HOST, listening, opened
from boxwright.problems import Refused
from tests.games import DEMO, MADE


def test_a_game_folder_opens_on_its_boxes_among_its_neighbours(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "my game", ignore=MADE)
    games, path = opened(tmp_path / "my game")
    assert (games, path) == (tmp_path.resolve(), "/games/my%20game/boxes")


def test_a_folder_of_games_opens_on_all_of_them(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "one", ignore=MADE)
    assert opened(tmp_path) == (tmp_path.resolve(), "/games")


@pytest.mark.parametrize("name", [".", "not-there"])
def test_a_folder_without_games_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "letter.txt").write_text("no game", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        opened(tmp_path / name)
    assert refused.value.problems[0].code == "studio.no-folder"


def test_an_empty_folder_opens_on_the_first_page_for_games_to_come(tmp_path: Path) -> None:
    assert opened(tmp_path) == (tmp_path.resolve(), "/")


def test_without_a_folder_the_first_page_opens_over_ones_own_games(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path)
    games, path = opened(None)
    assert (games, path) == (tmp_path / "Boxwright", "/")
    assert games.is_dir()


def test_it_listens_on_this_machine_alone() -> None:
    with listening(None) as listener:
        assert listener.getsockname()[0] == HOST


def test_a_port_that_is_taken_is_refused_where_it_was_named() -> None:
    with socket.socket() as other:
        other.bind((HOST, 0))
        other.listen()
        with pytest.raises(Refused) as refused:
            listening(other.getsockname()[1])
    assert refused.value.problems[0].code == "studio.port-taken"
