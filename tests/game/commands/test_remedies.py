"""What a complaint offers as its remedy is applied as it stands."""

from __future__ import annotations

import dataclasses

from boxwright.game.folder import Folder, read_game
from tests.game.commands.conftest import Player


def test_the_edit_of_a_problem_mends_it(play: Player) -> None:
    path = play.folder / "game.toml"
    path.write_text(play.text().replace('closes = "safe"', 'closes = "sfae"'))
    problems = read_game(play.folder)
    assert not isinstance(problems, Folder)
    edit = problems[0].edit
    assert edit is not None
    play("remedy.apply", **dataclasses.asdict(edit))
    assert play.data()["locks"]["hatch"]["closes"] == "safe"


def test_a_key_is_renamed(play: Player) -> None:
    play("remedy.apply", file="game.toml", path=["arrangements", "short"], key="brief")
    assert "brief" in play.data()["arrangements"]


def test_a_path_that_leads_nowhere_is_told(play: Player) -> None:
    problem = play.refused("remedy.apply", file="game.toml", path=["a", "b"], value=1)
    assert problem.code == "edit.no-such-path"
    problem = play.refused("remedy.apply", file="../x.toml", path=["a"], value=1)
    assert problem.where.path == ("file",)
