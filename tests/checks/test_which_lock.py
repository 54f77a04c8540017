"""Answers that fit each other's locks at one time are told, all that hang together as one."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Clash
from tests.games import base, found, remedy, said

CODE = "clue.which-lock"
GLOW = 'kind = "unseen-ink"\nplace = "folder"\nneeds = ["torch"]'
AT_START = 'kind = "count-sheet"\nplace = "start"'
TIN_LOCK = '[locks.latch]\nmechanism = "key"\ncloses = "tin"\nopened_by = "tin-key"'
NUMBERS = (
    '[locks.latch]\nmechanism = "number-wheels"\nwheels = 3\ncloses = "tin"\nstand_in = "allowed"'
)
LATCH_CLUE = (
    '[clues.third]\ngives = "latch"\n\n[clues.third.versions.one]\nkind = "count-sheet"\n\n'
)


def test_two_clues_at_the_start_for_locks_of_three_wheels_are_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (GLOW, AT_START)), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Clash(("front", "drum"), "code")
    places = (finding.problem.where, *finding.also)
    assert [place.path for place in places] == [("clues", "stencil"), ("clues", "glow")]
    assert all(place.line for place in places)
    assert all(part in said(finding) for part in ("stencil", "glow", "front", "drum"))


def test_three_of_them_are_one_finding(tmp_path: Path) -> None:
    game = base(
        tmp_path,
        (GLOW, AT_START),
        (TIN_LOCK, NUMBERS),
        ("[clues.rounds]", f"{LATCH_CLUE}[clues.rounds]"),
    )
    (finding,) = found(game, CODE)
    assert isinstance(finding.evidence, Clash)
    assert set(finding.evidence.ids) == {"front", "drum", "latch"}


def test_clues_that_are_solved_one_after_the_other_are_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_a_lock_that_cannot_be_tried_yet_is_fine(tmp_path: Path) -> None:
    chest = 'name = "the seed chest"\nplace = "table"'
    game = base(tmp_path, (GLOW, AT_START), (chest, chest.replace("table", "crate")))
    assert found(game, CODE) == []


def test_another_number_of_wheels_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (GLOW, AT_START))
    (finding,) = found(game, CODE)
    assert "different numbers of wheels" in remedy(finding)
    drum = 'wheels = 3\ncloses = "chest"'
    base(tmp_path, (drum, 'wheels = 4\ncloses = "chest"\nstand_in = "allowed"'))
    assert found(game, CODE) == []


def test_letting_one_come_later_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (GLOW, AT_START))
    assert found(game, CODE)
    base(tmp_path, (AT_START, 'kind = "count-sheet"\nplace = "crate"'))
    assert found(game, CODE) == []
