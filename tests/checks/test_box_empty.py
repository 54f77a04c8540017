"""A box that is opened and holds nothing is told; a sheet or a box in it is enough."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "box.empty"
KEY_IN_JAR = 'name = "a tin key"\nplace = "jar"'
KEY_OUTSIDE = 'name = "a tin key"\nplace = "sill"'
FENCES_IN_JAR = 'kind = "pigpen"\nplace = "jar"'
FENCES_OUTSIDE = 'kind = "pigpen"\nplace = "crate"'
QUIZ_IN_TIN = 'content = "parts.csv"\nplace = "tin"'


def test_a_box_whose_things_were_all_moved_out_is_told(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY_IN_JAR, KEY_OUTSIDE), (FENCES_IN_JAR, FENCES_OUTSIDE))
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis, finding.evidence) == ("fix", "computed", Count(0, 1))
    assert finding.problem.where.path == ("boxes", "jar")
    assert finding.problem.where.line
    assert "the tool box" in said(finding)


def test_so_is_a_box_from_which_sheet_and_torch_were_taken(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        (QUIZ_IN_TIN, 'content = "parts.csv"\nplace = "sill"'),
        ('tool = "uv-torch"\nplace = "tin"', 'tool = "uv-torch"\nplace = "sill"'),
    )
    (finding,) = found(game, CODE)
    assert finding.problem.where.path == ("boxes", "tin")


def test_one_thing_is_enough(tmp_path: Path) -> None:
    assert found(base(tmp_path, (KEY_IN_JAR, KEY_OUTSIDE)), CODE) == []


def test_a_box_in_a_box_is_enough(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        ('kind = "route-map"\nplace = "crate"', 'kind = "route-map"'),
        ('parts = { key = "crate" }\n', ""),
    )
    assert found(game, CODE) == []


def test_putting_something_in_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (KEY_IN_JAR, KEY_OUTSIDE), (FENCES_IN_JAR, FENCES_OUTSIDE))
    (finding,) = found(game, CODE)
    assert 'place = "jar"' in remedy(finding)
    base(tmp_path, (FENCES_OUTSIDE, FENCES_IN_JAR))
    assert found(game, CODE) == []
