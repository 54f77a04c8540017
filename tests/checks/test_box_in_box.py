"""A box that is too large for the one it stands in is told, by the measures of the kit."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Clash
from tests.games import base, built, found, judged, remedy, said

CODE = "kit.box-in-box"
JAR = "inside_mm = [180, 120, 90]"
CRATE = "inside_mm = [400, 300, 200]"


def refitted(tmp_path: Path, old: str, new: str) -> Path:
    """A game whose kit is measured otherwise than when it was built."""
    return base(tmp_path, (old, new), file="kit.toml")


def said_of(tmp_path: Path, old: str, new: str) -> list[str]:
    before = built(base(tmp_path)).edition
    after = built(refitted(tmp_path, old, new))
    return [said(one) for one in judged(after, before, CODE)]


def test_a_box_that_turns_out_too_large_is_a_stop(tmp_path: Path) -> None:
    before = built(base(tmp_path)).edition
    after = built(refitted(tmp_path, JAR, "inside_mm = [410, 120, 90]"))
    (finding,) = judged(after, before, CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Clash(("B2", "B1"), "room")
    assert finding.problem.where.path == ("boxes", "jar", "place")
    assert finding.problem.where.line
    for part in ("the tool box", "the wooden crate", "B1", "B2"):
        assert part in said(finding)


def test_so_is_an_outer_one_that_turns_out_too_small(tmp_path: Path) -> None:
    assert said_of(tmp_path, CRATE, "inside_mm = [300, 100, 100]")


def test_a_box_fits_that_is_two_millimetres_narrower_lying_on_its_side(tmp_path: Path) -> None:
    assert not said_of(tmp_path, JAR, "inside_mm = [198, 398, 298]")


def test_one_millimetre_leaves_no_room_for_walls(tmp_path: Path) -> None:
    assert said_of(tmp_path, JAR, "inside_mm = [199, 398, 298]")


def test_building_anew_takes_boxes_that_go_into_each_other(tmp_path: Path) -> None:
    before = built(base(tmp_path)).edition
    game = refitted(tmp_path, JAR, "inside_mm = [410, 320, 210]")
    (finding,) = judged(built(game), before, CODE)
    assert "a smaller box" in remedy(finding)
    assert found(game, CODE) == []
