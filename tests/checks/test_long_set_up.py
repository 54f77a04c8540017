"""What takes more than an evening's hour to set up is told before somebody begins."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said, trunk

GROUPS = "groups = [3, 6]"


def test_six_tables_take_one_person_longer_than_an_hour(tmp_path: Path) -> None:
    (finding,) = found(trunk(tmp_path, (GROUPS, "groups = [6, 6]")), "time.set-up")
    assert (finding.severity, finding.basis) == ("note", "estimated")
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.found > 1.5 * finding.evidence.limit
    assert "6 tables" in said(finding)


def test_four_tables_of_a_game_with_six_locks_do_so_too(tmp_path: Path) -> None:
    (finding,) = found(trunk(tmp_path, (GROUPS, "groups = [4, 6]")), "time.set-up")
    assert "4 tables" in said(finding)
    assert finding.problem.where.path == ("game", "groups")


def test_three_tables_are_just_within_the_hour(tmp_path: Path) -> None:
    assert found(trunk(tmp_path), "time.set-up") == []


def test_a_game_without_many_locks_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path), "time.set-up") == []


def test_fewer_tables_clear_it(tmp_path: Path) -> None:
    (finding,) = found(trunk(tmp_path, (GROUPS, "groups = [5, 6]")), "time.set-up")
    assert "fewer tables" in remedy(finding)
    trunk(tmp_path, ("groups = [5, 6]", GROUPS))
    assert found(tmp_path / "game", "time.set-up") == []
