"""What a folder asks of locks and kinds that they do not have is told with the right line."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import read
from boxwright.messages import words
from boxwright.problems import Problem, Refused
from tests.games import base

FRONT = '[locks.front]\nmechanism = "number-wheels"\nwheels = 3'
STENCIL = 'level = "easier"\nkind = "nonogram"'
OWN = 'kind = "own-sheet"\noptions = { text = ["Count the pots by the door."] }'


def told(game: Path) -> tuple[Problem, ...]:
    try:
        read(game)
    except Refused as refused:
        return refused.problems
    return ()


@pytest.mark.parametrize(
    "codes",
    ["472 385", "472, 385", "472 or 385", "one 472 385", "One of: 472, 385", "one of 472 or 385"],
)
def test_several_codes_without_one_of_are_told_with_the_right_line(
    tmp_path: Path, codes: str
) -> None:
    game = base(tmp_path, (FRONT, f'{FRONT}\ncode = "{codes}"'))
    (problem,) = told(game)
    assert problem.code == "code.several"
    right = 'code = "one of 472 385"'
    assert right in words(problem.remedy)
    base(tmp_path, (f'code = "{codes}"', right))
    assert told(game) == ()


def test_a_code_to_be_drawn_is_told_in_small_letters(tmp_path: Path) -> None:
    (problem,) = told(base(tmp_path, (FRONT, f'{FRONT}\ncode = "Auto"')))
    assert 'code = "auto"' in words(problem.remedy)


def test_a_lock_of_the_kit_with_a_fault_is_told_once_and_with_its_line(tmp_path: Path) -> None:
    game = base(tmp_path)
    base(tmp_path, ("[locks.N2]", "[locks.N2]\nfixed = true"), file="kit.toml")
    (problem,) = told(game)
    assert problem.code == "kit.fixed-without-code"
    base(tmp_path, ("fixed = true", 'faces = ["0123", "01!3", "0123"]'), file="kit.toml")
    (problem,) = told(game)
    assert problem.code == "mechanism.bad-face"
    assert (problem.where.file, problem.where.line is not None) == ("kit.toml", True)


@pytest.mark.parametrize("code", ["472", "4 7 2", "4-7-2", "42", "47 2"])
def test_one_code_written_with_blanks_is_one(tmp_path: Path, code: str) -> None:
    assert told(base(tmp_path, (FRONT, f'{FRONT}\ncode = "{code}"'))) == ()


def test_a_page_of_ones_own_is_told_the_form_that_its_locks_codes_have(tmp_path: Path) -> None:
    game = base(tmp_path, (STENCIL, OWN))
    (problem,) = told(game)
    assert problem.code == "code.own-drawn"
    example = str(problem.remedy.args["example"])
    assert len(example) == 3
    base(tmp_path, (FRONT, f'{FRONT}\ncode = "{example}"'))
    assert told(game) == ()


def test_a_faulty_lock_alone_is_told_where_a_page_of_ones_own_leads_to_it(tmp_path: Path) -> None:
    faulty = FRONT.replace("wheels = 3", 'wheels = 3\nkeys = "123"')
    assert [one.code for one in told(base(tmp_path, (STENCIL, OWN), (FRONT, faulty)))] == [
        "mechanism.field"
    ]


@pytest.mark.parametrize(
    "change",
    [
        ("[locks.front]", "[locks.frnot]"),
        ('mechanism = "direction"', 'mechanism = "direktion"'),
        (STENCIL, STENCIL.replace("nonogram", "nonogramm")),
    ],
)
def test_a_misspelt_lock_mechanism_or_kind_is_told_once(
    tmp_path: Path, change: tuple[str, str]
) -> None:
    assert len(told(base(tmp_path, change))) == 1
