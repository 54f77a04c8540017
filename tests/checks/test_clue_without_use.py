"""A clue that leads nowhere, to nothing of use, or too late, is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "clue.without-use"
LAST = "[clues.glow]"
TO_PLACE = '[clues.walk]\ngives = "sill"\n\n[clues.walk.versions.one]\nkind = "pigpen"\n\n'
TO_ITEM = '[clues.walk]\ngives = "spade"\n\n[clues.walk.versions.one]\nkind = "pigpen"\n\n'
SPADE = '[items.spade]\nname = "a spade"\nplace = "sill"\n\n[items.seeds]'
TOO_LATE = (
    '[clues.spare]\ngives = "front"\n\n[clues.spare.versions.one]\n'
    'kind = "count-sheet"\nplace = "crate"\n\n'
)


def test_a_clue_to_a_bare_place_is_told(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (LAST, TO_PLACE + LAST)), CODE)
    assert (finding.severity, finding.basis, finding.evidence) == ("fix", "computed", Count(0, 1))
    assert finding.problem.code == "clue.without-use-place"
    assert finding.problem.where.path == ("clues", "walk", "gives")
    assert finding.problem.where.line
    assert "walk" in said(finding)
    assert "sill" in said(finding)


def test_a_clue_to_a_thing_of_no_use_is_told(tmp_path: Path) -> None:
    game = base(tmp_path, (LAST, TO_ITEM + LAST), ("[items.seeds]", SPADE))
    (finding,) = found(game, CODE)
    assert finding.problem.code == "clue.without-use-item"
    assert "a spade" in said(finding)


def test_a_second_clue_that_lies_in_the_box_it_opens_comes_too_late(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (LAST, TOO_LATE + LAST)), CODE)
    assert finding.problem.code == "clue.without-use-late"
    assert "spare" in said(finding)
    assert "front" in said(finding)


def test_a_second_clue_outside_is_of_use(tmp_path: Path) -> None:
    outside = TOO_LATE.replace('place = "crate"', 'place = "sill"')
    assert found(base(tmp_path, (LAST, outside + LAST)), CODE) == []


def test_a_sheet_at_the_place_is_of_use(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        (LAST, TO_PLACE + LAST),
        ('content = "parts.csv"\nplace = "tin"', 'content = "parts.csv"\nplace = "sill"'),
    )
    assert found(game, CODE) == []


def test_putting_something_there_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (LAST, TO_PLACE + LAST))
    (finding,) = found(game, CODE)
    assert "Put a box, an item or a sheet there" in remedy(finding)
    base(tmp_path, ('name = "a tin key"\nplace = "jar"', 'name = "a tin key"\nplace = "sill"'))
    assert found(game, CODE) == []


def test_letting_it_win_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (LAST, TO_ITEM + LAST), ("[items.seeds]", SPADE))
    assert found(game, CODE)
    base(
        tmp_path,
        ('name = "a spade"\nplace = "sill"', 'name = "a spade"\nplace = "sill"\nwins = true'),
    )
    assert found(game, CODE) == []


def test_moving_it_before_the_lock_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (LAST, TOO_LATE + LAST))
    assert found(game, CODE)
    base(
        tmp_path, ('kind = "count-sheet"\nplace = "crate"', 'kind = "count-sheet"\nplace = "start"')
    )
    assert found(game, CODE) == []
