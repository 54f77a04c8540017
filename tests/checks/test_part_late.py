"""Pieces of one clue that come far apart are told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "part.late"
FENCES = 'kind = "pigpen"\nplace = "jar"\nparts = { key = "crate" }'
GLOW = 'kind = "unseen-ink"\nplace = "folder"'


def test_a_key_that_comes_two_rounds_after_its_sheet_is_noted(tmp_path: Path) -> None:
    late = FENCES.replace('"jar"', '"start"').replace('"crate"', '"jar"')
    (finding,) = found(base(tmp_path, (FENCES, late)), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Count(2, 1)
    assert finding.problem.where.path == ("clues", "fences", "versions", "one", "parts", "key")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("key", "fences", "2 rounds"))


def test_so_is_the_sheet_itself_behind_its_key(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (FENCES, FENCES.replace('"crate"', '"start"'))), CODE)
    assert finding.problem.where.path == ("clues", "fences", "versions", "one", "place")


def test_so_is_a_torch_long_after_the_sheet_that_needs_it(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (GLOW, GLOW.replace("folder", "start"))), CODE)
    assert finding.problem.code == "part.late-item"
    assert finding.problem.where.path == ("items", "torch", "place")
    assert "a violet torch" in said(finding)
    assert finding.also[0].path == ("clues", "glow")


def test_the_next_box_is_soon_enough(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []
    soon = FENCES.replace('"jar"', '"start"')
    assert found(base(tmp_path, (FENCES, soon)), CODE) == []


def test_putting_both_where_they_are_found_at_one_time_clears_it(tmp_path: Path) -> None:
    late = FENCES.replace('"jar"', '"start"').replace('"crate"', '"jar"')
    game = base(tmp_path, (FENCES, late))
    (finding,) = found(game, CODE)
    assert "at one time" in remedy(finding)
    base(tmp_path, (late, FENCES))
    assert found(game, CODE) == []
