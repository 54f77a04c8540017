"""The maker's line logic and the solver's give what trying out every filling gives."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.puzzles.contract import GaveUp
from boxwright.puzzles.nonogram_lines import (
    columns_of,
    runs_of,
    settle,
    settle_picture,
)
from boxwright.puzzles.nonogram_solver import count_fillings, fillings, pictures


def runs(line: int) -> tuple[int, ...]:
    """Return run lengths by reading the line as text."""
    text = f"{line:b}"[::-1]
    return tuple(len(list(group)) for sign, group in groupby(text) if sign == "1") or (0,)


def known(size: int) -> Iterator[tuple[int, int]]:
    for dark in range(1 << size):
        for light in range(1 << size):
            if not dark & light:
                yield dark, light


@given(st.integers(0, 2**20))
def test_runs_are_those_of_the_text(line: int) -> None:
    assert runs_of(line) == runs(line)


@pytest.mark.parametrize("size", range(1, 6))
def test_a_line_is_settled_as_by_trying_all_fillings(size: int) -> None:
    for wanted in {runs(line) for line in range(1 << size)}:
        all_lines = [line for line in range(1 << size) if runs(line) == wanted]
        for dark, light in known(size):
            fit = [line for line in all_lines if line & dark == dark and not line & light]
            always, ever = (1 << size) - 1, 0
            for line in fit:
                always, ever = always & line, ever | line
            expected = (always, ~ever & (1 << size) - 1) if fit else None
            assert settle(wanted, size, dark, light) == expected


@given(st.integers(1, 12).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, 2**n - 1))))
def test_all_fillings_are_listed_once(case: tuple[int, int]) -> None:
    size, line = case
    listed = fillings(runs(line), size)
    expected = [other for other in range(1 << size) if runs(other) == runs(line)[::-1]]
    assert sorted(listed) == expected
    assert count_fillings(runs(line), size) == len(expected)


grids = st.integers(2, 6).flatmap(
    lambda width: st.tuples(
        st.just(width), st.lists(st.integers(0, 2**width - 1), min_size=2, max_size=6)
    )
)


@given(grids)
def test_both_settle_the_same_squares_with_the_same_looks(grid: tuple[int, list[int]]) -> None:
    width, rows = grid
    across = [runs_of(row) for row in rows]
    down = [runs_of(column) for column in columns_of(rows, width)]
    settled = settle_picture(across, down)
    found = list(pictures(across, down))
    texts = {tuple(f"{row:0{width}b}"[::-1].translate({48: 46, 49: 35}) for row in rows)}
    assert texts <= {picture.grid for picture in found}
    if not any(settled.open):
        assert [picture.grid for picture in found] == list(texts)
        assert settled.dark == rows
        assert settled.looks == len(found[0].looks)
        assert found[0].guesses == 0


@given(grids)
def test_every_picture_is_found_that_has_these_runs(grid: tuple[int, list[int]]) -> None:
    width, rows = min(grid[0], 4), [row & 15 for row in grid[1][:3]]
    rows = [row & (1 << width) - 1 for row in rows]
    across = [runs_of(row) for row in rows]
    down = [runs_of(column) for column in columns_of(rows, width)]
    expected = set()
    for number in range(1 << width * len(rows)):
        other = [number >> width * y & (1 << width) - 1 for y in range(len(rows))]
        same_rows = [runs_of(row) for row in other] == across
        if same_rows and [runs_of(c) for c in columns_of(other, width)] == down:
            expected.add(tuple(f"{row:0{width}b}"[::-1] for row in other))
    found = [
        tuple(row.translate({46: 48, 35: 49}) for row in f.grid) for f in pictures(across, down)
    ]
    assert sorted(found) == sorted(expected)


def test_runs_that_fit_no_picture_have_none() -> None:
    assert list(pictures([(2,), (0,)], [(1,), (0,)])) == []
    assert list(pictures([(5,)], [(1,), (1,)])) == []


def test_a_hopeless_search_gives_up_and_says_how_far_it_went() -> None:
    scattered = [(1,)] * 14
    with pytest.raises(GaveUp) as caught:
        list(pictures(scattered, scattered))
    assert caught.value.bound == 4_000
