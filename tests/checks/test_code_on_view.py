"""A code that the room shows anyway is told."""

from __future__ import annotations

from pathlib import Path

from boxwright.problems import Answers
from tests.games import base, found, remedy, said

CODE = "code.on-view"
DRUM = '[locks.drum]\nmechanism = "number-wheels"'


def with_view(tmp_path: Path, code: str, figure: str) -> Path:
    base(
        tmp_path,
        ('facilities = ["board"]', f'facilities = ["board"]\nfigures = ["{figure}"]'),
        file="room.toml",
    )
    return base(tmp_path, (DRUM, f'{DRUM}\ncode = "{code}"'))


def test_the_number_on_the_door_is_no_code(tmp_path: Path) -> None:
    (finding,) = found(with_view(tmp_path, "214", "Room 214"), CODE)
    assert (finding.severity, finding.basis) == ("fix", "declared")
    assert finding.evidence == Answers(("214",))
    assert finding.problem.where.path == ("locks", "drum", "code")
    assert finding.problem.where.line
    assert all(part in said(finding) for part in ("214", "drum", "Room 214"))


def test_nor_is_a_date_without_its_points(tmp_path: Path) -> None:
    assert len(found(with_view(tmp_path, "145", "14.5."), CODE)) == 1


def test_part_of_a_longer_number_is_fine(tmp_path: Path) -> None:
    assert found(with_view(tmp_path, "214", "Tel. 62148"), CODE) == []


def test_drawing_the_code_clears_it(tmp_path: Path) -> None:
    game = with_view(tmp_path, "214", "Room 214")
    (finding,) = found(game, CODE)
    assert 'code = "auto"' in remedy(finding)
    base(tmp_path, ('code = "214"', 'code = "auto"'))
    assert found(game, CODE) == []
