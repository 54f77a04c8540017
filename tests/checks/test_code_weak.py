"""A code that anyone tries first is told with the reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.problems import Answers
from tests.games import base, found, remedy, said

CODE = "code.weak"
DRUM = '[locks.drum]\nmechanism = "number-wheels"'


def with_code(tmp_path: Path, code: str) -> Path:
    return base(tmp_path, (DRUM, f'{DRUM}\ncode = "{code}"'))


@pytest.mark.parametrize("code", ["777", "123", "987", "321"])
def test_codes_that_are_tried_first_are_told(tmp_path: Path, code: str) -> None:
    (finding,) = found(with_code(tmp_path, code), CODE)
    assert (finding.severity, finding.basis) == ("fix", "computed")
    assert finding.evidence == Answers((code,))
    assert finding.problem.where.path == ("locks", "drum", "code")
    assert finding.problem.where.line
    assert code in said(finding)
    assert "drum" in said(finding)


def test_a_code_that_only_looks_like_a_row_is_fine(tmp_path: Path) -> None:
    assert found(with_code(tmp_path, "124"), CODE) == []


def test_what_a_lock_rests_at_is_weak(tmp_path: Path) -> None:
    game = with_code(tmp_path, "573")
    rests = '[locks.N2]\nmodel = "three-numbers"\nshelf_code = "000"'
    base(tmp_path, (rests, rests.replace("000", "573")), file="kit.toml")
    assert len(found(game, CODE)) == 1


def test_drawing_the_code_clears_it(tmp_path: Path) -> None:
    game = with_code(tmp_path, "777")
    (finding,) = found(game, CODE)
    assert 'code = "auto"' in remedy(finding)
    base(tmp_path, ('code = "777"', 'code = "auto"'))
    assert found(game, CODE) == []


def test_a_lock_that_cannot_be_set_is_noted_for_its_weak_code(tmp_path: Path) -> None:
    fixed = '[locks.N2]\nmodel = "three-numbers"\nfixed = true\ncode = "777"'
    base(
        tmp_path,
        ('[locks.N2]\nmodel = "three-numbers"\nshelf_code = "000"', fixed),
        file="kit.toml",
    )
    (finding,) = found(with_code(tmp_path, "777"), CODE)
    assert finding.severity == "note"
    assert "Take another lock" in remedy(finding)
