"""Sheets go to JSON and back without loss, and nothing else passes for a sheet."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.messages import words
from boxwright.problems import Problem, Refused, Where
from boxwright.records import from_json, to_json


@dataclass(frozen=True, slots=True)
class Spot:
    x: float
    name: str
    shown: bool = True


@dataclass(frozen=True, slots=True)
class Board:
    spots: tuple[Spot, ...]
    size: tuple[int, int]
    shade: Literal["dark", "light"]
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Sheet:
    sheet: Board | None = None


numbers = st.floats(allow_nan=False, allow_infinity=False)
spots = st.builds(Spot, numbers, st.text(), st.booleans())
boards = st.builds(
    Board,
    st.lists(spots, max_size=3).map(tuple),
    st.tuples(st.integers(), st.integers()),
    st.sampled_from(["dark", "light"]),
    st.none() | st.text(),
)


@given(st.builds(Sheet, st.none() | boards))
def test_what_went_out_comes_back(sheet: Sheet) -> None:
    assert from_json(Sheet, json.loads(json.dumps(to_json(sheet)))) == sheet


SOUND = {
    "sheet": {"spots": [{"x": 1.5, "name": "a", "shown": True}], "size": [2, 3], "shade": "dark"}
}


def problems(data: Any) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        from_json(Sheet, data, Where("sheets.json", ("clue",)))
    return caught.value.problems


def test_a_whole_number_will_do_for_a_number() -> None:
    board = from_json(Sheet, {"sheet": SOUND["sheet"] | {"spots": [{"x": 2, "name": "a"}]}}).sheet
    assert board is not None
    assert type(board.spots[0].x) is float


@pytest.mark.parametrize(
    ("change", "path", "expected"),
    [
        ({"size": [2]}, ("size",), "a list of 2"),
        ({"size": [2, "3"]}, ("size", 1), "a whole number"),
        ({"size": [2, 3.0]}, ("size", 1), "a whole number"),
        ({"size": [2, True]}, ("size", 1), "a whole number"),
        ({"size": 4}, ("size",), "a list"),
        ({"shade": "grey"}, ("shade",), "one of dark or light"),
        ({"spots": [{"x": "1", "name": "a"}]}, ("spots", 0, "x"), "a number"),
        ({"spots": [{"x": 1.0, "name": 7}]}, ("spots", 0, "name"), "text"),
        ({"spots": [{"x": 1.0, "name": "a", "shown": 1}]}, ("spots", 0, "shown"), "true or false"),
        ({"spots": ["a"]}, ("spots", 0), "an object"),
        ({"note": 3}, ("note",), "text"),
    ],
)
def test_a_wrong_type_is_refused_with_its_path(
    change: dict[str, Any], path: tuple[Any, ...], expected: str
) -> None:
    (problem,) = problems({"sheet": SOUND["sheet"] | change})
    assert problem.where == Where("sheets.json", ("clue", "sheet", *path))
    assert expected in words(problem.what)


def test_a_missing_field_is_named() -> None:
    (problem,) = problems({"sheet": {"spots": [], "size": [1, 2]}})
    assert (problem.code, problem.where.path[-1]) == ("record.missing", "shade")


def test_an_unknown_field_is_named_beside_those_known() -> None:
    (problem,) = problems({"sheet": SOUND["sheet"] | {"answer": "427"}})
    assert (problem.code, problem.where.path[-1]) == ("record.unknown", "answer")
    assert "spots" in words(problem.what)


def test_all_that_is_wrong_comes_together() -> None:
    assert len(problems({"sheet": {"spots": 1, "size": [1], "shades": "dark"}})) == 4
