"""A shackle that does not go through its hole is told; one that was not measured, to try."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "kit.shackle"
TIN_HOLE = "inside_mm = [200, 120, 120]\nhasp_holes = 1\nhasp_hole_mm = 7"
KEY_LOCK = 'mechanism = "key"\nshackle_mm = [5, 22]'


def test_a_shackle_thicker_than_the_hole_is_a_stop(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (TIN_HOLE, TIN_HOLE.replace("= 7", "= 4.5")), file="kit.toml")
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Count(45, 55)  # tenths of a millimetre
    assert finding.problem.where.path == ("locks", "latch", "closes")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("K1", "B3", "5 mm", "4.5 mm"))


def test_so_is_one_that_leaves_no_play(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (TIN_HOLE, TIN_HOLE.replace("= 7", "= 5.4")), file="kit.toml")
    assert len(found(game, CODE)) == 1


def test_half_a_millimetre_is_enough(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (TIN_HOLE, TIN_HOLE.replace("= 7", "= 5.5")), file="kit.toml")
    assert found(game, CODE) == []


def test_what_was_not_measured_is_to_be_tried_by_hand(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (KEY_LOCK, 'mechanism = "key"'), file="kit.toml")
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis) == ("note", "try by hand")
    assert finding.evidence == Count(4, 5)
    assert "K1" in said(finding)
    base(tmp_path, ('mechanism = "key"', KEY_LOCK), file="kit.toml")
    assert found(game, CODE) == []


def test_a_lock_that_is_part_of_the_box_hangs_in_no_hole(tmp_path: Path) -> None:
    game = base(tmp_path, ('place = "shelf"', 'place = "shelf"\nown_lock = true'))
    own = TIN_HOLE.replace("= 7", "= 4.5")
    base(tmp_path, (TIN_HOLE, f'{own}\nown_lock = "K1"'), file="kit.toml")
    assert found(game, CODE) == []


def test_a_thinner_lock_further_up_in_the_kit_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (TIN_HOLE, TIN_HOLE.replace("= 7", "= 4.5")), file="kit.toml")
    (finding,) = found(game, CODE)
    assert "5.5 mm or more" in remedy(finding)
    thin = '[locks.K0]\nmechanism = "key"\nshackle_mm = [3, 22]\n\n[locks.K1]'
    base(
        tmp_path, ("[locks.K1]", thin), ('opens = ["K1"]', 'opens = ["K0", "K1"]'), file="kit.toml"
    )
    assert found(game, CODE) == []
