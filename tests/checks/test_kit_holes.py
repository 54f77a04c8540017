"""A box with more locks than holes is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count, Finding
from tests.games import base, built, found, judged, remedy, said

CODE = "kit.holes"
CHEST = "hasp_holes = 2"
TWIN = '[boxes.B5]\nname = "a twin"\ninside_mm = [380, 280, 180]\nhasp_holes = 2\n\n[stand_ins]'


def after(tmp_path: Path, *changes: tuple[str, str]) -> list[Finding]:
    before = built(base(tmp_path)).edition
    return judged(built(base(tmp_path, *changes, file="kit.toml")), before, CODE)


def test_two_locks_for_one_hole_are_a_stop(tmp_path: Path) -> None:
    (finding,) = after(tmp_path, (CHEST, "hasp_holes = 1"))
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Count(1, 2)
    assert finding.problem.where.path == ("boxes", "chest")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("the seed chest", "B4", "W1", "N2"))


def test_a_box_without_any_hole_is_a_stop(tmp_path: Path) -> None:
    crate = "inside_mm = [400, 300, 200]\nhasp_holes = 1"
    (finding,) = after(tmp_path, (crate, crate.replace("= 1", "= 0")))
    assert finding.evidence == Count(0, 1)


def test_a_hole_for_each_lock_is_enough(tmp_path: Path) -> None:
    assert after(tmp_path, (CHEST, "hasp_holes = 3")) == []


def test_a_lock_that_is_part_of_the_box_needs_none(tmp_path: Path) -> None:
    chest = "inside_mm = [380, 280, 180]\nhasp_holes = 2"
    assert after(tmp_path, (chest, f'{chest.replace("= 2", "= 1")}\nown_lock = "N2"')) == []


def test_building_again_with_a_box_that_has_the_holes_clears_it(tmp_path: Path) -> None:
    (finding,) = after(tmp_path, (CHEST, "hasp_holes = 1"), ("[stand_ins]", TWIN))
    assert "Build again" in remedy(finding)
    assert found(tmp_path / "game", CODE) == []
    assert built(tmp_path / "game").edition.stickers["1"]["chest"] == "B5"
