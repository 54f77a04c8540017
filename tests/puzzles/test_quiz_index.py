"""Quizzes: the right options bear the code, wrong tables are told line by line, all fits a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from itertools import product

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.paper.frame import Look
from boxwright.paper.page import page_for
from boxwright.paper.render import render
from boxwright.problems import Problem
from boxwright.puzzles import quiz_index
from boxwright.puzzles.contract import Alphabet, Answer, GaveUp, Given, Made
from boxwright.puzzles.quiz_index_content import LINE, faults
from boxwright.puzzles.quiz_index_sheet import LABELS, Carried, Knows, Quiz, Sheet

COLUMNS = ("question", "right", "wrong1", "wrong2", "wrong3", "wrong4", "wrong5", "level")
SUMS = [(a, b) for a in range(6, 13) for b in range(4, 8)]


def table(rows: Sequence[Sequence[str]]) -> Table:
    filled = [(*row, *("",) * (len(COLUMNS) - len(row))) for row in rows]
    lines = tuple(range(2, len(rows) + 2))
    return Table("q.csv", COLUMNS, tuple(dict(zip(COLUMNS, r, strict=True)) for r in filled), lines)


def products(count: int, wrong: int = 5, level: str = "") -> Table:
    """Return questions after products, with near misses."""
    rows = [
        (f"{a} x {b}", str(a * b), *(str(a * b + n) for n in range(1, wrong + 1)))
        for a, b in SUMS[:count]
    ]
    return table([(*row, *("",) * (5 - wrong), level) for row in rows])


def given(questions: Table, level: Level = "ordinary") -> Given:
    return Given(level=level, content=Content({"questions": questions}))


def answer(symbols: Sequence[str], alphabet: Alphabet = "digits") -> Answer:
    return Answer(alphabet, tuple(symbols))


def refusal(
    symbols: Sequence[str],
    questions: Table,
    alphabet: Alphabet = "digits",
    choices: int | None = None,
) -> Problem | None:
    options = quiz_index.Options(choices=choices)
    return quiz_index.refuse(answer(symbols, alphabet), options, given(questions))


def make(
    symbols: Sequence[str],
    questions: Table,
    alphabet: Alphabet = "digits",
    level: Level = "ordinary",
    seed: int = 1,
    choices: int | None = None,
) -> Made:
    options = quiz_index.Options(choices=choices)
    return quiz_index.make(answer(symbols, alphabet), options, given(questions, level), Dice(seed))


def quiz(made: Made) -> Quiz:
    assert isinstance(made.sheet, Sheet)
    assert made.sheet.sheet is not None
    return made.sheet.sheet


codes = st.sampled_from(list(LABELS)).flatmap(
    lambda alphabet: st.tuples(
        st.just(alphabet), st.lists(st.sampled_from(LABELS[alphabet]), min_size=1, max_size=6)
    )
)


@drawn(codes, st.sampled_from(LEVELS), st.integers(0, 10_000))
def test_multiplying_out_the_questions_gives_the_code(
    code: tuple[Carried, list[str]], level: Level, seed: int
) -> None:
    """A second solver: it multiplies, and asks neither `solve` nor the table."""
    alphabet, symbols = code
    made = make(symbols, products(28), alphabet, level, seed)
    found = []
    for sign in quiz(made).asked:
        (question,) = [one for one in quiz(made).questions if one.sign == sign]
        a, b = map(int, question.text.split(" x "))
        (label,) = [choice.label for choice in question.choices if choice.text == str(a * b)]
        found.append(label)
    assert found == symbols
    (solution,) = quiz_index.solve(made.sheet, made.knows)
    assert solution.answer == answer(symbols, alphabet)


def test_who_knows_nothing_may_take_every_option() -> None:
    made = make("231", products(28), choices=3)
    found = {solution.answer.symbols for solution in quiz_index.solve(made.sheet, Knows())}
    assert found == set(product("123", repeat=3))


def test_a_long_code_that_nobody_knows_is_given_up() -> None:
    made = make("654321", products(28))
    with pytest.raises(GaveUp):
        list(quiz_index.solve(made.sheet, Knows()))


def test_neither_sheet_nor_page_tells_right_from_wrong() -> None:
    made = make("23", products(28))
    choices = quiz(made).questions[0].choices
    names = {field.name for choice in choices for field in fields(choice)}
    assert names == {"label", "text"}


def test_the_right_option_stands_in_every_place_as_often_as_the_code_says() -> None:
    for symbol in "123456":
        made = make(symbol, products(28))
        labels = [choice.label for choice in quiz(made).questions[0].choices]
        assert labels == list("123456"[: max(4, int(symbol))])


def test_easier_questions_stand_in_the_order_of_the_boxes_and_others_do_not() -> None:
    for level in LEVELS:
        for seed in range(20):
            page = quiz(make("1234", products(28), level=level, seed=seed))
            in_order = [it.sign for it in page.questions if it.sign in page.asked]
            assert (in_order == list(page.asked)) <= (level in ("easier", "harder", "hardest"))
            assert (in_order == list(page.asked)) >= (level == "easier")


def test_harder_sheets_ask_more_than_the_boxes() -> None:
    counts = [len(quiz(make("1234", products(28), level=level)).questions) for level in LEVELS]
    assert counts == [4, 4, 5, 6]


def test_rows_of_the_level_come_first() -> None:
    hard, any_level = products(4, level="hardest"), products(8)
    mixed = Table("q.csv", COLUMNS, hard.rows + any_level.rows[4:], tuple(range(2, 10)))
    page = quiz(make("123", mixed, level="easier"))
    assert not {it.text for it in page.questions} & {row["question"] for row in hard.rows}
    assert quiz_index.refuse(answer("123456"), quiz_index.Options(), given(mixed)) is None


def test_the_teacher_may_say_how_many_options_there_are() -> None:
    page = quiz(make("121", products(28), choices=2))
    assert {len(question.choices) for question in page.questions} == {2}


@pytest.mark.parametrize(
    ("symbols", "questions", "choices", "code", "part"),
    [
        ("103", products(28), None, "quiz-index.no-option", "marked 0"),
        ("173", products(28), None, "quiz-index.no-option", "1, 2, 3, 4, 5 and 6"),
        ("153", products(28, 2), None, "quiz-index.few-options", "an answer 5"),
        ("123", products(2), None, "quiz-index.too-few", "3 questions"),
        ("143", products(28), 3, "quiz-index.choices-few", "needs 4"),
        ("123", products(28, 2), 5, "quiz-index.choices-many", "enough with 3"),
        ("123", table([]), None, "quiz-index.too-few", "table has 0"),
    ],
)
def test_what_the_table_cannot_carry_is_refused(
    symbols: str, questions: Table, choices: int | None, code: str, part: str
) -> None:
    problem = refusal(symbols, questions, choices=choices)
    assert problem is not None
    assert problem.code == code
    assert part in said(problem.what)
    assert said(problem.remedy)


def test_following_the_remedy_for_too_few_options_helps() -> None:
    problem = refusal("153", products(28, 2))
    assert problem is not None
    assert "Give at least 3 questions 4 wrong answers each" in said(problem.remedy)
    mended = Table("q.csv", COLUMNS, products(3, 4).rows + products(28, 2).rows[3:])
    assert refusal("153", mended) is None


def test_moves_need_but_one_wrong_option() -> None:
    assert refusal(("up", "left", "up"), products(28, 1), "moves") is None


def test_without_a_table_the_clue_is_told_to_name_one() -> None:
    problem = quiz_index.refuse(answer("12"), quiz_index.Options(), Given())
    assert problem is not None
    assert problem.code == "quiz-index.no-table"


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (("", "a", "b"), "quiz-index.empty"),
        (("Which?", "", "b"), "quiz-index.empty"),
        (("Which?", "a"), "quiz-index.no-wrong"),
        (("Which?", "An oak", "an  OAK."), "quiz-index.wrong-is-right"),
        (("Which?", "a", "b", "c", "B"), "quiz-index.wrong-twice"),
        (("6 X 4 ", "x", "y"), "quiz-index.question-twice"),
        (("Which?", "a", "b", "all of the above"), "quiz-index.by-place"),
        (("Which?", "both A and C", "a", "b"), "quiz-index.by-place"),
        (("Which?", "a", "b", "", "", "", "", "tricky"), "quiz-index.level"),
    ],
)
def test_a_faulty_row_is_named_with_its_line(row: tuple[str, ...], code: str) -> None:
    good = products(3, 2)
    bad = table([tuple(r.values()) for r in good.rows] + [row])
    (problem,) = faults(bad)
    assert (problem.code, problem.where.file, problem.where.line) == (code, "q.csv", 5)
    assert said(problem.what) != code
    assert refusal("12", bad) == problem


@pytest.mark.parametrize(
    "options",
    [("above", "below"), ("none of these", "some"), ("both a cat and a dog", "a hen"), ("C", "B")],
)
def test_options_that_merely_sound_like_it_are_kept(options: tuple[str, str]) -> None:
    assert list(faults(table([("Where?", *options)]))) == []


def test_exponents_are_not_taken_for_figures() -> None:
    assert list(faults(table([("Which is 25?", "5²", "52")]))) == []


def test_each_wrong_option_is_a_mistake_of_its_own() -> None:
    made = make("231", products(28), choices=3, level="easier")
    (solution,) = quiz_index.solve(made.sheet, made.knows)
    found = {it.answer.symbols for it in quiz_index.mistakes(made.sheet, made.knows, solution)}
    wrong = {
        tuple(other if at == place else symbol for at, symbol in enumerate("231"))
        for place in range(3)
        for other in "123"
    }
    assert found == wrong - {tuple("231")}


def test_questions_too_long_for_any_page_are_refused_and_the_rest_fits_the_largest_print() -> None:
    def long(words: int) -> Table:
        return table(
            [(f"{n} {'why ' * words}?", "a" * 20, "b" * 20, "c" * 20, "d" * 20) for n in range(5)]
        )

    fitting = next(words for words in range(80, 0, -1) if refusal("1234", long(words)) is None)
    problem = refusal("1234", long(fitting + 1))
    assert problem is not None
    assert problem.code == "quiz-index.no-room"
    made = make("1234", long(fitting))
    page = page_for(quiz_index, made.sheet, "sheet", title="Which one is right?", lang="en")  # type: ignore[arg-type]
    assert render([page], Look("us-letter", 18))
    assert fitting * 4 > LINE
