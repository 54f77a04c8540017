"""A box that nothing closes is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "box.without-lock"
BASKET = '[boxes.tin]\nname = "the tea tin"'
LOCK = '[locks.latch]\nmechanism = "key"\ncloses = "tin"'


def test_a_box_without_any_lock_stands_open(tmp_path: Path) -> None:
    game = base(tmp_path, (BASKET, f'[boxes.basket]\nname = "the basket"\n\n{BASKET}'))
    (finding,) = found(game, CODE)
    assert (finding.severity, finding.basis, finding.evidence) == ("fix", "computed", Count(0, 1))
    assert finding.problem.where.path == ("boxes", "basket")
    assert finding.problem.where.line
    assert "the basket" in said(finding)


def test_so_does_one_whose_lock_closes_another_box(tmp_path: Path) -> None:
    game = base(tmp_path, (LOCK, LOCK.replace("tin", "crate")))
    (finding,) = found(game, CODE)
    assert finding.problem.where.path == ("boxes", "tin")


def test_one_lock_of_two_is_enough(tmp_path: Path) -> None:
    game = base(tmp_path, ('wheels = 3\ncloses = "chest"', 'wheels = 3\ncloses = "tin"'))
    assert found(game, CODE) == []


def test_the_line_of_the_remedy_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (LOCK, LOCK.replace("tin", "crate")))
    (finding,) = found(game, CODE)
    assert 'closes = "tin"' in remedy(finding)
    base(tmp_path, (LOCK.replace("tin", "crate"), LOCK))
    assert found(game, CODE) == []
