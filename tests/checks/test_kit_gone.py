"""A printed set whose lock was taken off the shelf since is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.build import Built
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding
from tests.games import base, built, found, judged, remedy, said

CODE = "kit.gone"


def without(tmp_path: Path, *changes: tuple[str, str]) -> tuple[Built, Edition]:
    """A printed set, and its folder after the kit was changed."""
    before = built(base(tmp_path)).edition
    return built(base(tmp_path, *changes, file="kit.toml")), before


def findings(tmp_path: Path, *changes: tuple[str, str]) -> list[Finding]:
    after, before = without(tmp_path, *changes)
    return judged(after, before, CODE)


def test_a_lock_whose_sticker_is_no_more_is_a_stop(tmp_path: Path) -> None:
    (finding,) = findings(tmp_path, ("[locks.N2]", "[locks.N7]"))
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Count(0, 1)
    assert finding.problem.where.path == ("locks", "drum")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("drum", "N2", "The grey trolley"))


def test_so_are_a_torch_and_a_box(tmp_path: Path) -> None:
    gone = findings(tmp_path, ("[tools.U1]", "[tools.U2]"), ("[boxes.B4]", "[boxes.B9]"))
    assert {one.problem.where.path for one in gone} == {("items", "torch"), ("boxes", "chest")}


def test_a_lock_that_only_came_to_have_faults_is_there(tmp_path: Path) -> None:
    assert findings(tmp_path, ("[locks.N2]", '[locks.N2]\nfaults = "stiff"')) == []


def test_envelopes_are_on_no_shelf_and_not_missed(tmp_path: Path) -> None:
    before = built(base(tmp_path)).edition
    assert before.stickers["1"]["seal"] == "ENV1"
    assert found(tmp_path / "game", CODE) == []


def test_building_again_clears_it(tmp_path: Path) -> None:
    (finding,) = findings(tmp_path, ("[locks.N2]", "[locks.N7]"))
    assert "Build again" in remedy(finding)
    assert found(tmp_path / "game", CODE) == []
