"""A box measured in centimetres is told with its measures in millimetres."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "box.tiny"
JAR = "inside_mm = [120, 80, 60]"
CHEST = "inside_mm = [380, 280, 180]"


def test_a_box_of_the_game_in_centimetres_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (JAR, "inside_mm = [12, 8, 6]")), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Count(12, 60)
    assert finding.problem.where.path == ("boxes", "jar", "inside_mm")
    assert finding.problem.where.line
    assert "the tool box" in said(finding)


def test_so_is_one_of_the_kit(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (CHEST, "inside_mm = [38, 28.5, 18]"), file="kit.toml")
    (finding,) = found(game, CODE)
    assert finding.problem.where.file == "kit.toml"
    assert "inside_mm = [380, 285, 180]" in remedy(finding)


def test_a_small_box_is_no_slip(tmp_path: Path) -> None:
    assert found(base(tmp_path, (JAR, "inside_mm = [60, 40, 15]")), CODE) == []


def test_writing_millimetres_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (JAR, "inside_mm = [12, 8, 6]"))
    (finding,) = found(game, CODE)
    assert remedy(finding).endswith(JAR)
    base(tmp_path, ("inside_mm = [12, 8, 6]", JAR))
    assert found(game, CODE) == []
