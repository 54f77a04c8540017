"""The drawn digits and letters are whole, tell apart, and are read wherever they stand."""

from __future__ import annotations

import pytest

from boxwright.puzzles.figures import DIGITS, FACES, LETTERS, Face, faces_of
from boxwright.puzzles.nonogram_reading import figures_in, readings

EACH = [(face, symbol) for face in FACES for symbol in face.pictures]


def board(face: Face, text: str, width: int, height: int, left: int = 1, top: int = 1) -> list[str]:
    """Return a picture of `#` and `.` with figures one square apart."""
    rows = [["."] * width for _ in range(height)]
    for symbol in text:
        for y, row in enumerate(face.pictures[symbol]):
            rows[top + y][left : left + len(row)] = row
        left += face.width(symbol) + 1
    return ["".join(row) for row in rows]


def inverse(grid: list[str]) -> list[str]:
    return [row.translate(str.maketrans("#.", ".#")) for row in grid]


@pytest.mark.parametrize("face", FACES, ids=lambda face: f"{face.sort}-{face.name}")
def test_a_face_is_whole(face: Face) -> None:
    assert "".join(face.pictures) == (DIGITS if face.sort == "digits" else LETTERS)
    for picture in face.pictures.values():
        assert len(picture) == face.height
        assert len({len(row) for row in picture}) == 1
        assert set("".join(picture)) <= {"#", "."}
        assert "#" in picture[0]
        assert "#" in picture[-1]


@pytest.mark.parametrize("face", FACES, ids=lambda face: f"{face.sort}-{face.name}")
def test_no_two_figures_of_a_face_are_alike(face: Face) -> None:
    assert len(set(face.pictures.values())) == len(face.pictures)


def test_no_picture_stands_for_two_figures_in_different_faces() -> None:
    for sort in ("digits", "letters"):
        owners: dict[tuple[str, ...], set[str]] = {}
        for face in faces_of(sort):
            for symbol, picture in face.pictures.items():
                owners.setdefault(picture, set()).add(symbol)
        assert all(len(symbols) == 1 for symbols in owners.values())


@pytest.mark.parametrize(("face", "symbol"), EACH, ids=lambda part: getattr(part, "name", part))
def test_a_figure_is_read_alone_in_both_shades(face: Face, symbol: str) -> None:
    grid = board(face, symbol, 9, 11, left=3, top=2)
    for shaded in (grid, inverse(grid)):
        assert readings(shaded, face.sort, 1, 1) == [(symbol,)]
    (found,) = set(figures_in(grid, face.sort))
    assert (found.left, found.top, found.height, found.dark) == (3, 2, face.height, True)


def test_figures_are_read_from_left_to_right() -> None:
    assert readings(board(FACES[0], "427", 14, 8), "digits", 3, 1) == [("4", "2", "7")]


def test_two_lines_are_read_from_the_top() -> None:
    grid = board(FACES[0], "42", 9, 6) + board(FACES[0], "70", 9, 7)
    assert readings(grid, "digits", 4, 2) == [("4", "2", "7", "0")]
    assert readings(grid, "digits", 4, 1) == []


def test_a_figure_without_its_rim_is_not_read() -> None:
    grid = board(FACES[0], "4", 7, 8)
    grid[6] = "#######"
    assert readings(grid, "digits", 1, 1) == []


def test_one_figure_too_many_gives_as_many_readings_as_there_are() -> None:
    grid = board(FACES[0], "123", 14, 8)
    assert readings(grid, "digits", 2, 1) == [("1", "2"), ("1", "3"), ("2", "3")]
