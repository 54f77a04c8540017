"""A page of the teacher's own that says its code as it is gets a note."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.problems import Excerpt
from tests.games import base, found, remedy, said

CODE = "leak.own"
STENCIL = 'level = "easier"\nkind = "nonogram"'
FRONT = '[locks.front]\nmechanism = "number-wheels"'


def with_page(tmp_path: Path, text: str) -> Path:
    own = f'kind = "own-sheet"\noptions = {{ text = ["Look well.", "{text}"] }}'
    return base(tmp_path, (STENCIL, own), (FRONT, f'{FRONT}\ncode = "472"'))


@pytest.mark.parametrize("text", ["The crate opens with 472.", "Turn to 4 - 7 - 2 at dusk."])
def test_a_page_with_its_code_in_figures_is_noted(tmp_path: Path, text: str) -> None:
    (finding,) = found(with_page(tmp_path, text), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert isinstance(finding.evidence, Excerpt)
    assert finding.problem.where.path[-2:] == ("text", 1)
    assert finding.problem.where.line
    assert "stencil" in said(finding)
    assert "472" in said(finding)


def test_a_page_with_its_code_in_words_is_noted_too(tmp_path: Path) -> None:
    assert found(with_page(tmp_path, "Turn to four seven two."), CODE)


def test_a_page_whose_figures_must_be_found_is_fine(tmp_path: Path) -> None:
    text = "Count 4 pots by the door, 7 on the sill and 2 in the sink."
    assert found(with_page(tmp_path, text), CODE) == []


def test_another_figure_is_not_the_code(tmp_path: Path) -> None:
    assert found(with_page(tmp_path, "Bed 14720 is the largest."), CODE) == []


def test_writing_so_that_it_must_be_worked_out_clears_it(tmp_path: Path) -> None:
    game = with_page(tmp_path, "The crate opens with 472.")
    (finding,) = found(game, CODE)
    assert "work it out" in remedy(finding)
    base(tmp_path, ("The crate opens with 472.", "Count the pots, the beds and the cans."))
    assert found(game, CODE) == []
