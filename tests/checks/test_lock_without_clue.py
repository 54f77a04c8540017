"""A lock that nothing leads to is told, with the box that stays closed."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "lock.without-clue"
LABEL = 'gives = "label"'
DRUM = 'gives = "drum"'


def test_a_lock_whose_clue_leads_elsewhere_is_a_stop(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (DRUM, 'gives = "front"')), CODE)
    assert (finding.severity, finding.basis) == ("stop", "computed")
    assert finding.evidence == Count(0, 1)
    assert finding.problem.where.path == ("locks", "drum")
    assert finding.problem.where.line
    assert "drum" in said(finding)
    assert "the seed chest" in said(finding)


def test_a_lock_that_was_added_without_a_clue_is_a_stop(tmp_path: Path) -> None:
    more = '[locks.extra]\nmechanism = "number-wheels"\nwheels = 3\ncloses = "tin"\n\n[locks.drum]'
    (finding,) = found(base(tmp_path, ("[locks.drum]", more)), CODE)
    assert finding.problem.where.path == ("locks", "extra")


def test_a_lock_with_a_key_needs_no_clue(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_a_clue_for_it_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (DRUM, 'gives = "front"'))
    (finding,) = found(game, CODE)
    assert 'gives = "drum"' in remedy(finding)
    clue = '\n\n[clues.more]\ngives = "drum"\n\n[clues.more.versions.one]\nkind = "count-sheet"\n'
    base(tmp_path, ('needs = ["torch"]\n', f'needs = ["torch"]{clue}'))
    assert found(game, CODE) == []
