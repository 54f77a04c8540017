"""A game that nothing ends is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "game.no-end"
WINS = 'place = "chest"\nwins = true'


def test_a_game_without_a_winning_thing_is_told(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (WINS, 'place = "chest"')), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Count(0, 1)
    assert finding.problem.where.path == ("items",)
    assert "when it is over" in said(finding)


def test_saying_no_is_not_enough(tmp_path: Path) -> None:
    assert len(found(base(tmp_path, (WINS, WINS.replace("true", "false"))), CODE)) == 1


def test_any_thing_may_win(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        (WINS, 'place = "chest"'),
        ('tool = "uv-torch"\nplace = "tin"', 'tool = "uv-torch"\nplace = "tin"\nwins = true'),
    )
    assert found(game, CODE) == []


def test_the_line_of_the_remedy_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (WINS, 'place = "chest"'))
    (finding,) = found(game, CODE)
    assert "wins = true" in remedy(finding)
    base(tmp_path, ('name = "a bag of seeds"', 'name = "a bag of seeds"\nwins = true'))
    assert found(game, CODE) == []
