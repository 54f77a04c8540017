"""An item that nothing is done with is noted."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "item.without-use"
SEEDS = "[items.seeds]"
SPADE = f'[items.spade]\nname = "a spade"\nplace = "jar"\n\n{SEEDS}'
TORCH = 'kind = "unseen-ink"\nplace = "folder"\nneeds = ["torch"]'


def test_a_thing_that_is_only_there_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (SEEDS, SPADE)), CODE)
    assert (finding.severity, finding.basis) == ("note", "computed")
    assert finding.evidence == Count(0, 1)
    assert finding.problem.where.path == ("items", "spade")
    assert finding.problem.where.line
    assert "a spade" in said(finding)


def test_a_tool_whose_clue_was_changed_is_noted(tmp_path: Path) -> None:
    game = base(tmp_path, (TORCH, 'kind = "count-sheet"\nplace = "folder"'))
    (finding,) = found(game, CODE)
    assert "a violet torch" in said(finding)


def test_keys_tools_and_the_prize_are_of_use(tmp_path: Path) -> None:
    assert found(base(tmp_path), CODE) == []


def test_giving_it_a_use_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (SEEDS, SPADE))
    (finding,) = found(game, CODE)
    assert "needs" in remedy(finding)
    base(tmp_path, ('needs = ["torch"]', 'needs = ["torch", "spade"]'))
    assert found(game, CODE) == []
