"""Fence signs: whole keys give one text, empty cells follow from the rule, and nothing is lost."""

from __future__ import annotations

import string

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.puzzles import pigpen
from boxwright.puzzles.contract import Alphabet, Answer, Given, Made, NoKnows
from boxwright.puzzles.pigpen_fences import Fence, Key, Row, Sheet, Sign

NOTHING = NoKnows()


def make(
    symbols: str,
    alphabet: Alphabet = "letters",
    level: Level = "ordinary",
    seed: int = 1,
    keyword: str = "",
) -> Made:
    answer = Answer(alphabet, tuple(symbols))
    options = pigpen.Options(keyword=keyword)
    assert pigpen.refuse(answer, options, Given(level=level)) is None
    return pigpen.make(answer, options, Given(level=level), Dice(seed))


def key_of(made: Made) -> Key:
    assert isinstance(made.sheet, Sheet)
    assert made.sheet.key is not None
    return made.sheet.key


def printed(made: Made) -> str:
    """Return what stands in the cells, a dot for an empty one."""
    return "".join(cell or "." for fence in key_of(made).fences for cell in fence.cells)


@pytest.mark.parametrize(("symbols", "alphabet"), [("DOG", "letters"), ("427", "digits")])
def test_the_signs_say_that_their_key_is_another_sheet_to_be_looked_for(
    symbols: str, alphabet: Alphabet
) -> None:
    how = said(pigpen.words(make(symbols, alphabet).sheet, "sheet")["how"])
    assert "another sheet, the key." in how
    assert "If you do not have it yet, look for it." in how


def texts(sheet: Sheet) -> list[str]:
    return ["".join(it.answer.symbols) for it in pigpen.solve(sheet, NOTHING)]


def filled_by_hand(cells: str, rule: str) -> str:
    """Return the whole key as a pupil would fill it in: from one given cell to the next."""
    if rule == "rest":
        first = cells[: (cells + ".").index(".")]
        return first + "".join(it for it in string.ascii_uppercase if it not in first)
    if rule == "again":
        return (cells[:10] * 3)[:26]
    ring = "1234567890" if any(it.isdigit() for it in cells) else string.ascii_uppercase
    at = next(place for place, cell in enumerate(cells) if cell != ".")
    return "".join(ring[(ring.index(cells[at]) + n - at) % len(ring)] for n in range(26))


@drawn(
    st.one_of(
        st.tuples(st.just("letters"), st.text(string.ascii_uppercase, min_size=1, max_size=10)),
        st.tuples(st.just("text"), st.text(string.ascii_uppercase, min_size=1, max_size=10)),
        st.tuples(st.just("digits"), st.text(string.digits, min_size=1, max_size=6)),
    ),
    st.sampled_from(LEVELS),
    st.integers(0, 10_000),
)
def test_a_second_reader_finds_the_same_text_and_no_other(
    code: tuple[Alphabet, str], level: Level, seed: int
) -> None:
    alphabet, symbols = code
    made = make(symbols, alphabet, level, seed)
    whole = iter(filled_by_hand(printed(made), key_of(made).rule))
    behind = {
        (fence.shape, fence.dot, at): next(whole)
        for fence in key_of(made).fences
        for at in range(len(fence.cells))
    }
    signs = made.sheet.sheet.signs
    assert "".join(behind[it.shape, it.dot, it.cell] for it in signs) == symbols
    assert texts(made.sheet) == [symbols]


def test_the_key_of_the_easiest_level_is_whole_and_others_have_more_and_more_to_fill_in() -> None:
    empty = [printed(make("HARBOUR", level=level)).count(".") for level in LEVELS]
    assert empty == [0, 13, 22, 20]


def test_the_usual_order_stands_in_the_first_two_levels() -> None:
    assert printed(make("SILL", level="easier")) == string.ascii_uppercase
    whole = printed(make("SILL", level="ordinary"))
    pairs = zip(whole, string.ascii_uppercase, strict=True)
    assert all(cell in (".", letter) for cell, letter in pairs)


def test_at_harder_levels_the_alphabet_does_not_begin_in_the_first_cell() -> None:
    firsts = {printed(make("SILL", level="harder", seed=seed))[0] for seed in range(40)}
    assert len(firsts) > 10
    assert "A" not in firsts


def test_letters_drawn_for_a_key_can_form_no_word() -> None:
    for seed in range(40):
        assert not set(printed(make("SILL", level="hardest", seed=seed))[:6]) & set("AEIOUY")


def test_a_keyword_of_the_teacher_begins_the_key() -> None:
    assert printed(make("SILL", level="easier", keyword="harbour")).startswith("HARBOUCDEFG")
    assert printed(make("SILL", level="hardest", keyword="harbour")) == "HARBOU" + "." * 20


def test_a_figure_that_comes_twice_may_have_two_signs() -> None:
    signs = {make("44", "digits", "easier", seed).sheet.sheet.signs for seed in range(30)}
    assert any(first != second for first, second in signs)


def test_without_the_key_there_are_many_readings() -> None:
    for code, alphabet in (("BAD", "letters"), ("FROST", "text"), ("427", "digits")):
        made = make(code, alphabet, "easier")  # type: ignore[arg-type]
        found = texts(Sheet(made.sheet.sheet, None))
        assert len(found) >= 10
        assert code in found


def test_a_key_that_tells_too_little_has_every_reading_that_agrees_with_it() -> None:
    blank = tuple(
        Fence(shape, dot, ("",) * count)  # type: ignore[arg-type]
        for shape, dot, count in (("grid", False, 9), ("cross", False, 4))
    )
    row = Row("letters", (Sign("grid", 0, False), Sign("cross", 0, False)))
    found = texts(Sheet(row, Key(blank, "run")))
    assert len(found) == 26
    assert {(ord(text[1]) - ord(text[0])) % 26 for text in found} == {9}


def test_a_key_at_odds_with_its_rule_has_no_reading() -> None:
    cells = ("A", "B", "D", *("",) * 6)
    row = Row("letters", (Sign("grid", 0, False),))
    assert texts(Sheet(row, Key((Fence("grid", False, cells),), "run"))) == []


def test_a_sign_whose_fence_is_not_in_the_key_has_no_reading() -> None:
    row = Row("letters", (Sign("cross", 0, True),))
    key = Key((Fence("grid", False, tuple("ABCDEFGHI")),), "whole")
    assert texts(Sheet(row, key)) == []


@pytest.mark.parametrize(
    ("symbols", "alphabet", "keyword", "code"),
    [
        ("42", "digits", "harbour", "pigpen.keyword-for-digits"),
        ("SILL", "text", "har-bour", "pigpen.keyword-signs"),
        ("SILL", "text", "hafenführung", "pigpen.keyword-signs"),
        ("SILL", "text", "abcdefghijklmn", "pigpen.keyword-long"),
        ("CAFÉ", "text", "", "kind.cannot-carry"),
        ("ABCDEFGHIJK", "letters", "", "kind.cannot-carry"),
        ("1234567", "digits", "", "kind.cannot-carry"),
    ],
)
def test_what_cannot_be_made_is_refused(
    symbols: str, alphabet: Alphabet, keyword: str, code: str
) -> None:
    options = pigpen.Options(keyword=keyword)
    problem = pigpen.refuse(Answer(alphabet, tuple(symbols)), options, Given())
    assert problem is not None
    assert problem.code == code
    assert said(problem.what) != code


def test_mistakes_say_what_overlooked_dots_and_a_turned_sheet_give() -> None:
    made = make("FROST", level="easier")
    (solution,) = pigpen.solve(made.sheet, NOTHING)
    found = {
        it.means.id: "".join(it.answer.symbols)
        for it in pigpen.mistakes(made.sheet, NOTHING, solution)
    }
    assert found["pigpen.mistake-dots"] == "FIFST"
    assert found["pigpen.mistake-turned"] == "UVMJD"
    assert found["pigpen.mistake-backwards"] == "TSORF"
