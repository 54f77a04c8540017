"""Tables as teachers' programs save them are read; faults come with their line."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from boxwright.content.csv_file import read_table
from boxwright.content.tables import Table
from boxwright.game.signs import control_sign


def table(path: Path, text: str | bytes) -> Table:
    found = outcome(path, text)
    assert isinstance(found, Table), found
    return found


def outcome(path: Path, text: str | bytes) -> Table | tuple[tuple[str, int | None], ...]:
    file = path / "t.csv"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    found = read_table(file, "content/t.csv")
    if isinstance(found, Table):
        return found
    assert {one.where.file for one in found} == {"content/t.csv"}
    return tuple((one.code, one.where.line) for one in found)


def test_columns_and_rows(tmp_path: Path) -> None:
    found = table(tmp_path, "Term , MEANING\nheat, a form of energy \n")
    assert found.columns == ("term", "meaning")
    assert found.rows == ({"term": "heat", "meaning": "a form of energy"},)


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("between", [",", ";"])
def test_any_programs_habits(tmp_path: Path, mark: bytes, newline: str, between: str) -> None:
    text = newline.join([f"a{between}b", f"1{between}2", ""])
    assert table(tmp_path, mark + text.encode()).rows == ({"a": "1", "b": "2"},)


def test_a_comma_inside_quotes_does_not_decide(tmp_path: Path) -> None:
    assert table(tmp_path, '"a,b,c";d\n1;2\n').columns == ("a,b,c", "d")


def test_cells_in_quotes_may_hold_anything(tmp_path: Path) -> None:
    found = table(tmp_path, 'a,b\n"1,2\n""x""",=1+1\n3,<b>\n')
    assert found.rows[0] == {"a": '1,2\n"x"', "b": "=1+1"}
    assert found.lines == (2, 4)


def test_blank_rows_and_short_rows_are_fine(tmp_path: Path) -> None:
    found = table(tmp_path, "a,b,c\n\n1\n , ,\n2,3,4,\n")
    assert [row["b"] for row in found.rows] == ["", "3"]
    assert found.lines == (3, 5)


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("", [("content.empty", 1)]),
        ("\n\n", [("content.empty", 1)]),
        ("a,b\n1,2,3\n4,5,6\n", [("content.few-names", 1)]),
        ("a,b\n1,2,3\n4,5\n", [("content.long-row", 2)]),
        ("a,b\n1,2\u200b\n", [("content.control-sign", 2)]),
        ("a,,b\n1,2,3\n", [("content.nameless-column", 1)]),
        ("\na,A\n1,2\n", [("content.column-twice", 2)]),
        ('a,b\n1,"2\n3,4\n', [("content.quotes", 2)]),
        ('a,b\n1,"2"x\n', [("content.quotes", 2)]),
        ("a\tb\n1\t2\n", [("content.tabs", 1)]),
        ("a,b\n1,2\x07\n", [("content.control-sign", 2)]),
        (f"a,b\n1,{'x' * 4001}\n", [("content.long-cell", 2)]),
        ("a,b\n" + "1,2\n" * 5001, [("content.too-many-rows", 5002)]),
        ("a,b\n1,\u00fc\n".encode("cp1252"), [("folder.not-utf-8", 2)]),
        ("a,b\n1,2\n".encode("utf-16"), [("folder.utf-16", None)]),
    ],
)
def test_faults_and_their_lines(
    tmp_path: Path, text: str | bytes, faults: list[tuple[str, int | None]]
) -> None:
    assert list(outcome(tmp_path, text)) == faults  # type: ignore[arg-type]


CELLS = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cc"], exclude_characters="\u0085"),
    min_size=1,
    max_size=8,
).filter(lambda cell: cell == cell.strip() and control_sign(cell) is None)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=6), st.sampled_from(",;"))
def test_what_a_program_writes_is_what_is_read(
    tmp_path: Path, rows: list[tuple[str, str]], between: str
) -> None:
    out = io.StringIO()
    csv.writer(out, delimiter=between).writerows([("left", "right"), *rows])
    found = table(tmp_path, out.getvalue())
    assert [(row["left"], row["right"]) for row in found.rows] == rows


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=60))
def test_any_bytes_are_a_table_or_have_faults(tmp_path: Path, data: bytes) -> None:
    outcome(tmp_path, data)
