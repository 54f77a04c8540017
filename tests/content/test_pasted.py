"""Pasted rows are known by their shape, bad ones are told with their lines, and none is lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.content.lesson import asked_of, content_from, our_table, our_tables, with_wrong_ones
from boxwright.content.pasted import Pasted, Shape, recognise
from boxwright.content.tables import Content, Table
from boxwright.puzzles.contract import Given
from boxwright.puzzles.quiz_index_content import faults as question_faults
from boxwright.puzzles.shade_by_rule_content import faults as statement_faults

WORD = st.text("abcdefghijklmnop", min_size=1, max_size=8)
CELL = st.lists(WORD, min_size=1, max_size=3).map(" ".join)
PAIRS = st.lists(WORD.map("the {}".format), min_size=2, max_size=40, unique=True).map(
    lambda cells: list(zip(cells[::2], cells[1::2], strict=False))
)
DELIMITERS = st.sampled_from(("\t", ";", ","))
ENDS = st.sampled_from(("\n", "\r\n", "\r"))


def codes(found: Pasted) -> list[tuple[str, int | None]]:
    return [(one.code.partition(".")[2], one.where.line) for one in found.problems]


@given(st.text(max_size=400))
def test_whatever_is_pasted_is_answered(text: str) -> None:
    found = recognise(text)
    assert (found.table is None) <= bool(found.problems)


@given(
    st.lists(st.tuples(CELL, CELL), min_size=1, max_size=30), DELIMITERS, ENDS, st.text(max_size=3)
)
def test_every_row_is_used_or_told_with_its_line(
    rows: list[tuple[str, str]], delimiter: str, end: str, odd: str
) -> None:
    lines = [delimiter.join(row) for row in rows] + [odd.strip()]
    found = recognise(end.join(lines))
    used = set(found.table.lines) if found.table else set()
    told = {one.where.line for one in found.problems}
    assert not used & told
    assert used | told >= set(range(1, len(rows) + 1))


@given(PAIRS, DELIMITERS)
def test_words_with_meanings_come_back_as_they_were(
    rows: list[tuple[str, str]], delimiter: str
) -> None:
    found = recognise("\n".join(delimiter.join(row) for row in rows))
    assert found.shape == "terms"
    assert found.table is not None
    assert [(row["term"], row["meaning"]) for row in found.table.rows] == rows


@pytest.mark.parametrize(
    ("text", "shape", "rows"),
    [
        ("Cork floats.\tyes\nIron floats.\tno", "statements", 2),
        ("Cork floats.,TRUE\nIron floats.,FALSE", "statements", 2),
        ("What is 1 + 1?;2;3;4\nWhat is 2 + 2?;4;5;6", "questions", 2),
        ("What is 1 + 1?;2\nWhat is 2 + 2?;4", "answers", 2),
        ("delta, land at a mouth\nbank, land along a side", "terms", 2),
        ("Meaning\tWord\nland at a mouth\tdelta", "terms", 1),
        ("true,statement\nno,Iron floats.", "statements", 1),
        ('"a ruler, long",yes\n"a rod, short",no', "statements", 2),
        ('5" pipe\tthin\n6" pipe\tthick', "terms", 2),
    ],
)
def test_shapes(text: str, shape: Shape, rows: int) -> None:
    found = recognise(text)
    assert found.table is not None
    assert (found.shape, len(found.table.rows), found.problems) == (shape, rows, ())


def test_bad_rows_are_told_in_place_and_the_others_stand() -> None:
    found = recognise(
        "Cork floats.,yes\n\nIron floats.,no\nWax floats.,perhaps\nLead floats.\n"
        "cork floats,yes\nOak floats.,yes,mostly"
    )
    assert found.shape == "statements"
    assert found.table is not None
    assert found.table.lines == (1, 3)
    assert codes(found) == [
        ("no-truth", 4), ("short-statements", 5), ("twice", 6), ("long-row", 7),
    ]  # fmt: skip


def test_a_right_answer_among_the_wrong_ones_is_told() -> None:
    found = recognise("How many?;2;3;4\nHow few?;2;3;2\nHow odd?;1;3;3")
    assert codes(found) == [("wrong-is-right", 2), ("wrong-twice", 3)]


@pytest.mark.parametrize(
    ("text", "code"),
    [("", "empty"), ("one\ntwo", "one-column"), ("a,b\n" * 600, "too-many")],
)
def test_what_makes_no_table_is_told(text: str, code: str) -> None:
    found = recognise(text)
    assert found.table is None
    assert codes(found) == [(code, None)]


def test_two_words_of_one_meaning_would_both_be_right() -> None:
    found = recognise("bank\tland at a side\nshore\tland at a side\nbed\tground below")
    assert codes(found) == [("twice", 2)]


def test_words_become_questions_whose_wrong_options_are_other_words() -> None:
    table = our_table("rivers").table
    assert table is not None
    made = with_wrong_ones(table)
    meanings = {row["meaning"]: row["term"] for row in table.rows}
    for row in made.rows:
        wrong = [row[f"wrong{at}"] for at in range(1, 6)]
        asked = next(meaning for meaning in meanings if row["question"].endswith(meaning))
        assert row["right"] == meanings[asked]
        assert len({row["right"], *wrong}) == 6
        assert set(wrong) < set(meanings.values())
    assert list(question_faults(made)) == []


@pytest.mark.parametrize("name", our_tables())
def test_our_own_tables_have_no_fault_that_a_sheet_would_refuse(name: str) -> None:
    found = our_table(name)
    assert found.problems == ()
    tables = content_from(found).tables
    looked = {"questions": question_faults, "statements": statement_faults}
    judged = [list(looked[kind](table)) for kind, table in tables.items() if kind in looked]
    assert judged == [[]]


def test_what_was_pasted_can_be_given_to_a_kind() -> None:
    assert content_from(recognise("")) == Given().content


TERMS = Table(
    "content/t.csv",
    ("term", "meaning", "level"),
    ({"term": "a", "meaning": "b", "level": "harder"},),
)


def test_a_games_words_are_asked_for_as_questions_which_keep_their_level() -> None:
    found = asked_of(Content({"terms": TERMS})).tables
    assert found["terms"] is TERMS
    assert found["questions"].rows[0]["right"] == "a"
    assert found["questions"].rows[0]["level"] == "harder"


def test_questions_of_ones_own_are_not_replaced_by_words() -> None:
    mine = Content({"terms": TERMS, "questions": Table("q.csv", ("question", "right"), ())})
    assert asked_of(mine) == mine
