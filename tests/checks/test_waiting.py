"""Pupils with nothing to do are told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Seconds
from tests.games import base, found, remedy, said

MARK = "solve.step-logic = 6"
PUPILS = "pupils = [3, 4]"


def test_a_group_too_large_for_the_clues_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (PUPILS, "pupils = [3, 8]")), "time.waiting")
    assert (finding.severity, finding.basis) == ("note", "estimated")
    assert finding.problem.where.path == ("game", "pupils")
    assert isinstance(finding.evidence, Seconds)
    assert finding.evidence.found > finding.evidence.limit
    assert "At a table of 8" in said(finding)


def test_sheets_at_which_only_one_can_sit_make_others_wait(tmp_path: Path) -> None:
    game = base(tmp_path, (MARK, f"{MARK}\ngroup.seats = 1"))
    assert len(found(game, "time.waiting")) == 1


def test_four_at_the_base_game_have_enough_to_do(tmp_path: Path) -> None:
    assert found(base(tmp_path), "time.waiting") == []


def test_smaller_groups_clear_it(tmp_path: Path) -> None:
    game = base(tmp_path, (PUPILS, "pupils = [3, 8]"))
    (finding,) = found(game, "time.waiting")
    assert "Seat fewer pupils at a table" in remedy(finding)
    base(tmp_path, ("pupils = [3, 8]", PUPILS))
    assert found(game, "time.waiting") == []
