"""A puzzle for older children than the youngest is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "clue.age"


def test_a_picture_grid_for_seven_year_olds_is_noted(tmp_path: Path) -> None:
    findings = found(base(tmp_path, ("ages = [9, 11]", "ages = [7, 9]")), CODE)
    by_path = {finding.problem.where.path: finding for finding in findings}
    finding = by_path["clues", "stencil", "versions", "one", "kind"]
    assert (finding.severity, finding.basis, finding.evidence) == ("note", "computed", Count(7, 8))
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("stencil", "nonogram", "7", "8"))


def test_five_year_olds_are_too_young_for_every_puzzle_here(tmp_path: Path) -> None:
    findings = found(base(tmp_path, ("ages = [9, 11]", "ages = [5, 9]")), CODE)
    assert {one.problem.where.path[1] for one in findings} == {
        "stencil",
        "rounds",
        "fences",
        "parts",
        "glow",
    }


def test_the_least_age_itself_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, ("ages = [9, 11]", "ages = [8, 11]")), CODE) == []


def test_another_puzzle_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, ("ages = [9, 11]", "ages = [7, 9]"))
    paths = {one.problem.where.path[1] for one in found(game, CODE)}
    assert "stencil" in paths
    assert "Choose another puzzle" in remedy(found(game, CODE)[0])
    base(tmp_path, ('kind = "nonogram"', 'kind = "count-sheet"'))
    assert {one.problem.where.path[1] for one in found(game, CODE)} == paths - {"stencil"}
