"""Figures in the story that pupils would try on a lock are noted."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Excerpt
from tests.games import base, found, remedy, said

CODE = "text.figure"
AWAY = "The gardener is away."


def test_a_year_in_the_story_is_noted_where_a_lock_takes_four_digits(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (AWAY, "The garden is from 1888.")), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert isinstance(finding.evidence, Excerpt)
    start, end = finding.evidence.at
    assert finding.evidence.text[start:end] == "1888"
    assert finding.problem.where.path == ("story", "opening", 0)
    assert finding.problem.where.line
    assert "1888" in said(finding)
    assert "seal" in said(finding)


def test_so_is_a_figure_in_a_name_with_all_locks_that_it_fits(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, ("the tea tin", "tin no. 555")), CODE)
    assert finding.problem.where.path == ("boxes", "tin", "name")
    assert all(lock in said(finding) for lock in ("front", "drum"))


def test_a_figure_that_fits_no_lock_is_fine(tmp_path: Path) -> None:
    assert found(base(tmp_path, (AWAY, "The 12 gardeners are away for 10000 days.")), CODE) == []


def test_the_code_itself_is_a_leak_and_told_there(tmp_path: Path) -> None:
    drum = '[locks.drum]\nmechanism = "number-wheels"'
    front = '[locks.front]\nmechanism = "number-wheels"\nwheels = 3'
    game = base(
        tmp_path,
        (AWAY, "The 572 gardeners are away."),
        (drum, f'{drum}\ncode = "572"'),
        (front, front.replace("3", '2\nstand_in = "allowed"')),
    )
    assert found(game, CODE) == []
    assert len(found(game, "leak.code")) == 1


def test_writing_it_in_words_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (AWAY, "The garden is from 1888."))
    (finding,) = found(game, CODE)
    assert "in words" in remedy(finding)
    base(tmp_path, ("The garden is from 1888.", "The garden is very old."))
    assert found(game, CODE) == []
