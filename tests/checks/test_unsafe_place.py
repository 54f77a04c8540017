"""Places near heat, sockets, doors or drops, and places too high, are told where used."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.problems import Clash, Count
from tests.games import base, found, remedy, said

SHELF = 'say = "SHELF"\nheight_mm = 700'
SILL = 'say = "SILL"'
TIN = 'name = "the tea tin"\nplace = "shelf"'


@pytest.mark.parametrize("danger", ["heat", "socket", "door", "drop"])
def test_a_box_near_a_danger_is_told(tmp_path: Path, danger: str) -> None:
    game = base(tmp_path)
    base(tmp_path, (SHELF, f'{SHELF}\nnear = ["{danger}"]'), file="room.toml")
    (finding,) = found(game, "place.unsafe")
    assert (finding.severity, finding.basis) == ("fix", "declared")
    assert finding.evidence == Clash((danger,), "shelf")
    assert finding.problem.where.file == "room.toml"
    assert finding.problem.where.path == ("places", "shelf", "near")
    assert finding.problem.where.line
    assert "the low shelf" in said(finding)


def test_a_place_out_of_reach_is_told(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (SHELF, SHELF.replace("700", "1450")), file="room.toml")
    (finding,) = found(game, "place.high")
    assert (finding.severity, finding.basis) == ("fix", "declared")
    assert finding.evidence == Count(1400, 1450)
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("145", "140", "9-year-olds"))


def test_older_pupils_reach_it(tmp_path: Path) -> None:
    game = base(tmp_path, ("ages = [9, 11]", "ages = [11, 13]"))
    base(tmp_path, (SHELF, SHELF.replace("700", "1450")), file="room.toml")
    assert found(game, "place") == []


def test_a_dangerous_place_that_is_not_used_is_fine(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (SILL, f'{SILL}\nnear = ["heat"]'), file="room.toml")
    assert found(game, "place") == []


def test_a_sheet_there_counts_as_use(tmp_path: Path) -> None:
    base(tmp_path, (SILL, f'{SILL}\nnear = ["heat"]'), file="room.toml")
    game = base(tmp_path, ('level = "easier"', 'level = "easier"\nplace = "sill"'))
    assert len(found(game, "place.unsafe")) == 1


def test_putting_things_elsewhere_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, (SHELF, f'{SHELF}\nnear = ["heat"]'), file="room.toml")
    (finding,) = found(game, "place.unsafe")
    assert "somewhere else" in remedy(finding)
    base(tmp_path, (TIN, TIN.replace("shelf", "table")))
    assert found(game, "place") == []
