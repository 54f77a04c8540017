"""Hints promised are held against hints that there are."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "hints.count"
PUPILS = "pupils = [3, 4]"
GLOW = 'needs = ["torch"]'
OWN = f'{GLOW}\nhints = ["Look closely.", "Shine on it.", "Begin at the edge."]'


def test_more_hints_than_there_are_lines_are_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (PUPILS, f"{PUPILS}\nhints = 16")), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Count(15, 16)
    assert finding.problem.where.path == ("game", "hints")
    assert finding.problem.where.line
    assert "16" in said(finding)
    assert "15" in said(finding)


def test_hints_that_nobody_gets_are_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (PUPILS, f"{PUPILS}\nhints = 0"), (GLOW, OWN)), CODE)
    assert finding.severity == "note"
    assert "glow" in said(finding)


def test_as_many_as_there_are_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (PUPILS, f"{PUPILS}\nhints = 15")), CODE) == []


def test_no_hints_and_none_written_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (PUPILS, f"{PUPILS}\nhints = 0")), CODE) == []


def test_following_the_remedy_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (PUPILS, f"{PUPILS}\nhints = 16"))
    (finding,) = found(game, CODE)
    assert "hints = 15" in remedy(finding)
    base(tmp_path, ("hints = 16", "hints = 15"))
    assert found(game, CODE) == []
    base(tmp_path, ("hints = 15", "hints = 0"), (GLOW, OWN))
    (finding,) = found(game, CODE)
    assert 'hints = "auto"' in remedy(finding)
    base(tmp_path, ("hints = 0", 'hints = "auto"'))
    assert found(game, CODE) == []
