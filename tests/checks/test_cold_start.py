"""A first lock that comes late is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

EASIER = 'level = "easier"\nkind = "nonogram"'


def test_a_hard_puzzle_at_the_start_is_noted(tmp_path: Path) -> None:
    game = base(tmp_path, (EASIER, 'level = "hardest"\nkind = "nonogram"'))
    (finding,) = found(game, "time.cold-start")
    assert (finding.severity, finding.basis) == ("note", "estimated")
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.found > finding.evidence.limit == 480
    assert "aim at 8" in said(finding)


def test_slow_readers_of_a_game_for_young_children_are_counted(tmp_path: Path) -> None:
    game = base(
        tmp_path, ("ages = [9, 11]", "ages = [6, 7]"), ("pupils = [3, 4]", "pupils = [1, 4]")
    )
    assert len(found(game, "time.cold-start")) == 1


def test_a_gentle_puzzle_at_the_start_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path), "time.cold-start") == []


def test_an_easier_version_clears_it(tmp_path: Path) -> None:
    hard = 'level = "hardest"\nkind = "nonogram"'
    game = base(tmp_path, (EASIER, hard))
    (finding,) = found(game, "time.cold-start")
    assert "an easier version" in remedy(finding)
    base(tmp_path, (hard, EASIER))
    assert found(game, "time.cold-start") == []
