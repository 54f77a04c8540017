"""Hints that run out, where more would let more groups finish, are told with their number."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

MARK = "solve.step-logic = 6"
PUPILS = "pupils = [3, 4]"


def hints(tmp_path: Path, count: int, after: int = 120) -> Path:
    """Return the base game with so many hints, little time, and pupils who soon ask."""
    return base(
        tmp_path,
        (PUPILS, f"{PUPILS}\nhints = {count}"),
        ("bell_to_bell = 75", "bell_to_bell = 42"),
        (MARK, f"{MARK}\nhint.after = {after}"),
    )


def test_one_hint_for_a_whole_game_is_too_few(tmp_path: Path) -> None:
    (finding,) = found(hints(tmp_path, 1), "time.hints")
    assert (finding.severity, finding.basis) == ("note", "estimated")
    assert isinstance(finding.evidence, Count)
    assert finding.evidence.have == 1
    assert finding.evidence.need > 1
    assert "1 are given" in said(finding) or "1 is given" in said(finding)


def test_no_hint_at_all_is_told_too(tmp_path: Path) -> None:
    assert len(found(hints(tmp_path, 0), "time.hints")) == 1


def test_as_many_as_are_asked_for_are_enough(tmp_path: Path) -> None:
    (finding,) = found(hints(tmp_path, 1), "time.hints")
    assert isinstance(finding.evidence, Count)
    need = finding.evidence.need
    base(tmp_path, ("hints = 1\n", f"hints = {need}\n"))
    assert found(tmp_path / "game", "time.hints") == []


def test_with_time_enough_hints_may_run_out(tmp_path: Path) -> None:
    game = hints(tmp_path, 1)
    base(tmp_path, ("bell_to_bell = 42", "bell_to_bell = 90"))
    assert found(game, "time.hints") == []


def test_its_own_remedy_is_the_number_that_would_do(tmp_path: Path) -> None:
    (finding,) = found(hints(tmp_path, 1), "time.hints")
    edit = finding.problem.edit
    assert "make the clues easier" in remedy(finding)
    assert edit is not None
    assert isinstance(finding.evidence, Count)
    assert edit.value == finding.evidence.need
    base(tmp_path, ("hints = 1\n", f"hints = {edit.value}\n"))
    assert found(tmp_path / "game", "time.hints") == []


def test_who_would_not_ask_needs_none(tmp_path: Path) -> None:
    assert found(hints(tmp_path, 0, after=3000), "time.hints") == []
