"""A teacher's own table of times: read as it is written, and every wrong row told with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from boxwright.build import Asked, Built, build
from boxwright.build.forecasting import expected_of
from boxwright.build.own_times import read_times
from boxwright.forecast.learning import Observation
from boxwright.forecast.parameters import Parameters
from boxwright.game.choosing import Wishes
from boxwright.game.examples import examples
from boxwright.messages import words
from boxwright.problems import Problem, Refused
from tests.games import base, built

USUAL = Parameters()


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Built:
    return built(base(tmp_path_factory.mktemp("times")))


def read(made: Built, folder: Path, text: str) -> tuple[Observation, ...]:
    file = folder / "times.csv"
    file.write_bytes(text.encode("utf-8"))
    return read_times(file, made.editions, USUAL)


def problems(made: Built, folder: Path, text: str) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as refused:
        read(made, folder, text)
    return refused.value.problems


def test_each_row_is_a_clue_of_a_group(made: Built, tmp_path: Path) -> None:
    found = read(made, tmp_path, "group,clue,minutes,hints\nred,stencil,6,0\nblue,rounds,7.5,\n")
    assert [(one.group, one.subject.clue, one.minutes) for one in found] == [
        ("red", "stencil", 6.0),
        ("blue", "rounds", 7.5),
    ]
    assert [one.subject.kind for one in found] == ["nonogram", "route-map"]
    expected = expected_of(made.edition, USUAL)
    assert [one.expected for one in found] == [expected["stencil"], expected["rounds"]]
    assert {one.session for one in found} == {""}


def test_a_spreadsheets_semicolons_commas_and_byte_order_mark_are_read(
    made: Built, tmp_path: Path
) -> None:
    (found,) = read(made, tmp_path, "\ufeffGroup;Clue;Minutes;Class\r\nrot;stencil;7,5;4b\r\n")
    assert (found.minutes, found.session) == (7.5, "4b")


def test_what_was_not_done_is_written_with_a_sign_before_its_minutes(
    made: Built, tmp_path: Path
) -> None:
    found = read(made, tmp_path, "group,clue,minutes\nred,stencil,>25\nred,rounds,> 7.5\n")
    assert [(one.minutes, one.done) for one in found] == [(25.0, False), (7.5, False)]
    (row,) = read(made, tmp_path, "group,clue,minutes\nred,stencil,25\n")
    assert row.done


def test_a_group_of_the_printed_set_has_its_own_versions(tmp_path: Path) -> None:
    game = examples()["tide-mill"]
    mixed = build(Asked(game, Wishes(groups=2, levels={"1": "easier", "2": "harder"})))
    text = "group,clue,minutes\n1,flour-sacks,6\n2,flour-sacks,9\nred,flour-sacks,7\n"
    found = read(mixed, tmp_path, text)
    levels = [edition.game.clues["flour-sacks"].level for edition in mixed.editions]
    assert len(set(levels)) == 2
    assert [one.subject.level for one in found] == [*levels, levels[0]]


def test_hints_count_as_given_evenly(made: Built, tmp_path: Path) -> None:
    (found,) = read(made, tmp_path, "group,clue,minutes,hints\nred,stencil,9,2\n")
    assert found.hints == (3.0, 6.0)


@pytest.mark.parametrize(
    ("row", "column", "remedy"),
    [
        ("red,stensil,6,0", "clue", "Write stencil here, or another of: "),
        ("red,zzz,6,0", "clue", "Write the id of one of these clues"),
        (",stencil,6,0", "group", "Write a name or a number for the group"),
        ("red,stencil,soon,0", "minutes", "Write how long it took, such as 7.5"),
        ("red,stencil,,0", "minutes", "delete the row"),
        ("red,stencil,0,0", "minutes", "Write how long"),
        ("red,stencil,nan,0", "minutes", "Write how long"),
        ("red,stencil,6000,0", "minutes", "Write how long"),
        ("red,stencil,6,4", "hints", "Write how many hints"),
        ("red,stencil,6,-1", "hints", "Write how many hints"),
        ("blue,rounds,5,1", "clue", "Delete one of the two rows"),
    ],
)
def test_a_wrong_row_is_told_with_its_line_and_what_helps(
    made: Built, tmp_path: Path, row: str, column: str, remedy: str
) -> None:
    text = f"group,clue,minutes,hints\nblue,rounds,5,1\n{row}\n"
    (problem,) = problems(made, tmp_path, text)
    assert (problem.where.line, problem.where.path) == (3, (3, column))
    assert remedy in words(problem.remedy)


def test_all_wrong_rows_are_told_together(made: Built, tmp_path: Path) -> None:
    found = problems(made, tmp_path, "group,clue,minutes\n,stencil,x\nred,rounds,-1\n")
    assert [(one.where.line, one.code) for one in found] == [
        (2, "learn.no-group"),
        (2, "learn.minutes"),
        (3, "learn.minutes"),
    ]


def test_a_column_that_is_missing_or_misspelt_is_told(made: Built, tmp_path: Path) -> None:
    (problem,) = problems(made, tmp_path, "group,clue,minute\nred,stencil,6\n")
    assert words(problem.remedy).startswith("Rename minute to minutes")


def test_a_table_without_rows_says_so(made: Built, tmp_path: Path) -> None:
    assert [one.code for one in problems(made, tmp_path, "group,clue,minutes\n")] == ["learn.empty"]
