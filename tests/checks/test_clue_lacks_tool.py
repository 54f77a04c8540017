"""A puzzle that takes a torch or a reader is told if its clue needs none."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Count
from tests.games import base, found, remedy, said

CODE = "clue.lacks-tool"
NEEDS = 'place = "folder"\nneeds = ["torch"]'
TORCH = 'tool = "uv-torch"'
GLOW = 'kind = "unseen-ink"\nplace = "folder"\nneeds = ["torch"]'
BARS = 'kind = "bar-picture"\nplace = "folder"'


def test_unseen_ink_without_a_torch_is_to_be_fixed(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (NEEDS, 'place = "folder"')), CODE)
    assert (finding.severity, finding.basis, finding.evidence) == ("fix", "computed", Count(0, 1))
    assert finding.problem.where.path == ("clues", "glow", "versions", "one")
    assert finding.problem.where.line
    assert "glow" in said(finding)
    assert "torch" in said(finding)


def test_needing_another_thing_does_not_help(tmp_path: Path) -> None:
    game = base(tmp_path, (NEEDS, 'place = "folder"\nneeds = ["tin-key"]'))
    assert len(found(game, CODE)) == 1


def test_a_bar_code_without_a_reader_is_noted(tmp_path: Path) -> None:
    (finding,) = found(base(tmp_path, (GLOW, BARS)), CODE)
    assert finding.severity == "note"
    assert "bar codes" in said(finding)


def test_a_reader_that_the_room_has_is_enough(tmp_path: Path) -> None:
    game = base(tmp_path, (GLOW, BARS))
    base(tmp_path, ('["board"]', '["board", "scanner"]'), file="room.toml")
    assert found(game, CODE) == []


def test_following_the_remedy_clears_it(tmp_path: Path) -> None:
    game = base(tmp_path, (NEEDS, 'place = "folder"'))
    (finding,) = found(game, CODE)
    assert 'needs = ["…"]' in remedy(finding)
    base(tmp_path, ('kind = "unseen-ink"\nplace = "folder"', f'kind = "unseen-ink"\n{NEEDS}'))
    assert found(game, CODE) == []
