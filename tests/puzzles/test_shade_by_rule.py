"""Grids to shade: every code, by statements and by number rules; faulty tables line by line."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Any, get_args

import pytest
from hypothesis import given as drawn
from hypothesis import settings
from hypothesis import strategies as st

from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import page_for
from boxwright.paper.render import render
from boxwright.puzzles import shade_by_rule, shelf
from boxwright.puzzles.contract import Answer, GaveUp, Given, Made
from boxwright.puzzles.figures import DIGITS, LETTERS
from boxwright.puzzles.shade_by_rule_content import COLUMN_ROOM, faults, width
from boxwright.puzzles.shade_by_rule_maker import MOST_COLUMNS
from boxwright.puzzles.shade_by_rule_numbers import FEWEST, others
from boxwright.puzzles.shade_by_rule_sheet import LARGEST, WITH_N, Knows, NumberRule, Squares

RULES: tuple[NumberRule, ...] = get_args(NumberRule)
COLUMNS = ("statement", "true", "level")


def table(rows: Sequence[Sequence[str]]) -> Table:
    filled = [(*row, *("",) * (len(COLUMNS) - len(row))) for row in rows]
    lines = tuple(range(2, len(rows) + 2))
    return Table("s.csv", COLUMNS, tuple(dict(zip(COLUMNS, r, strict=True)) for r in filled), lines)


def sums(count: int) -> Table:
    """Return statements about sums, every other one wrong by one."""
    pairs = list(product(range(2, 9), range(11, 18)))[:count]
    return table(
        [
            (f"{a} + {b} = {a + b + at % 2}", "no" if at % 2 else "yes")
            for at, (a, b) in enumerate(pairs)
        ]
    )


def given(statements: Table | None, level: Level = "ordinary") -> Given:
    return Given(level=level, content=Content({"statements": statements} if statements else {}))


def make(
    code: str,
    level: Level = "ordinary",
    *,
    statements: Table | None = None,
    seed: int = 1,
    **options: Any,
) -> Made:
    answer = Answer("digits" if code[0] in DIGITS else "letters", tuple(code))
    chosen, request = shade_by_rule.Options(**options), given(statements, level)
    assert shade_by_rule.refuse(answer, chosen, request) is None
    return shade_by_rule.make(answer, chosen, request, Dice(seed))


def squares_of(made: Made) -> Squares:
    found = made.sheet.sheet
    assert isinstance(found, Squares)
    return found


def codes(made: Made, knows: Knows | None = None) -> list[str]:
    found = shade_by_rule.solve(made.sheet, made.knows if knows is None else knows)
    return ["".join(solution.answer.symbols) for solution in found]


def refusal(statements: Table | None, code: str = "42", **options: Any) -> str | None:
    answer = Answer("digits", tuple(code))
    chosen = shade_by_rule.Options(**options)
    problem = shade_by_rule.refuse(answer, chosen, given(statements))
    return None if problem is None else problem.code


def shaded_singly(signs: str, level: Level) -> None:
    for at, sign in enumerate(signs):
        rule = RULES[at % len(RULES)]
        assert codes(make(sign, level, number_rule=rule, seed=at)) == [sign], rule


@pytest.mark.long
@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("signs", [DIGITS, LETTERS], ids=["digits", "letters"])
def test_every_single_figure_can_be_shaded_by_numbers(signs: str, level: Level) -> None:
    shaded_singly(signs, level)


@pytest.mark.parametrize(("start", "level"), list(enumerate(LEVELS)))
def test_some_single_figures_can_be_shaded_by_numbers(start: int, level: Level) -> None:
    shaded_singly(DIGITS[start::2], level)
    shaded_singly(LETTERS[start::8], level)


@settings(max_examples=25)
@drawn(
    st.one_of(st.text(DIGITS, min_size=2, max_size=4), st.text(LETTERS, min_size=2, max_size=3)),
    st.sampled_from(LEVELS),
    st.sampled_from((None, *RULES)),
    st.integers(0, 1000),
)
def test_a_code_has_one_reading_by_every_rule(
    code: str, level: Level, rule: NumberRule | None, seed: int
) -> None:
    if rule is None:
        made = make(code, level, statements=sums(40), seed=seed)
    else:
        made = make(code, level, number_rule=rule, seed=seed)
    squares = squares_of(made)
    assert codes(made) == [code]
    assert len(squares.cells[0]) <= MOST_COLUMNS
    assert {len(row) for row in squares.cells} == {len(squares.cells[0])}
    assert shade_by_rule.basis(made.sheet) == ("declared" if rule is None else "computed")


def test_working_out_the_sums_shades_what_the_teacher_declares() -> None:
    """A second solver: it adds up the printed statements, and asks nobody what is true."""
    made = make("427", "harder", statements=sums(40))
    squares = squares_of(made)
    right = set()
    for number, text in enumerate(squares.statements, start=1):
        left, total = text.split(" = ")
        if sum(map(int, left.split(" + "))) == int(total):
            right.add(number)
    grid = ["".join("#" if it in right else "." for it in row) for row in squares.cells]
    (solution,) = shade_by_rule.solve(made.sheet, made.knows)
    assert shade_by_rule.solved(made.sheet, made.knows, solution)["rows"] == grid


def test_who_does_not_know_one_statement_tries_it_both_ways() -> None:
    made = make("8", "easier", statements=sums(20))
    forgotten = Knows(made.knows.facts[1:])
    found = codes(made, forgotten)
    assert "8" in found


def test_who_knows_nothing_of_a_long_list_gives_up() -> None:
    made = make("427", "hardest", statements=sums(40))
    assert len(squares_of(made).statements) > 9
    with pytest.raises(GaveUp):
        codes(made, Knows())


def test_a_higher_level_lists_more_statements() -> None:
    counts = [
        len(squares_of(make("42", level, statements=sums(40))).statements) for level in LEVELS
    ]
    assert counts == sorted(set(counts))


def test_each_statement_of_the_list_is_needed_for_some_cell() -> None:
    squares = squares_of(make("427", "ordinary", statements=sums(40)))
    used = {number for row in squares.cells for number in row}
    assert used == set(range(1, len(squares.statements) + 1))


def test_one_is_held_against_no_prime() -> None:
    assert 1 not in others("prime", 0)


def test_statements_of_the_level_come_first() -> None:
    easy = [(f"{n} + 1 = {n + 1}", "yes", "easier") for n in range(10, 18)]
    wrong = [(f"{n} + 1 = {n}", "no", "easier") for n in range(10, 18)]
    hard = [(f"{n} x {n} = {n * n}", "yes", "hardest") for n in range(10, 18)]
    made = make("42", "easier", statements=table([*easy, *wrong, *hard]))
    assert not {text for text in squares_of(made).statements if " x " in text}


@pytest.mark.parametrize(
    ("statements", "options", "code"),
    [
        (None, {}, "shade-by-rule.no-table"),
        (sums(10), {"number_rule": "even"}, "shade-by-rule.two-rules"),
        (None, {"number_rule": "even", "rule": "It floats."}, "shade-by-rule.rule-unused"),
        (sums(10), {"n": 3}, "shade-by-rule.n-unused"),
        (None, {"number_rule": "prime", "n": 3}, "shade-by-rule.n-not-needed"),
        (None, {"number_rule": "multiples", "n": 0}, "shade-by-rule.n"),
        (None, {"number_rule": "multiples", "n": 1}, "shade-by-rule.n"),
        (None, {"number_rule": "multiples", "n": -7}, "shade-by-rule.n"),
        (None, {"number_rule": "multiples", "n": 50}, "shade-by-rule.n"),
        (None, {"number_rule": "factors", "n": 13}, "shade-by-rule.n"),
        (None, {"number_rule": "above", "n": 98}, "shade-by-rule.n"),
        (None, {"number_rule": "below", "n": 100_000}, "shade-by-rule.n"),
        (None, {"number_rule": "digit-sum", "n": 19}, "shade-by-rule.n"),
        (sums(10), {"rule": "It floats " * 10}, "shade-by-rule.long-rule"),
        (sums(5), {}, "shade-by-rule.too-few"),
    ],
)
def test_choices_that_do_not_go_together_are_refused(
    statements: Table | None, options: dict[str, Any], code: str
) -> None:
    assert refusal(statements, **options) == code


@pytest.mark.parametrize("rule", RULES)
def test_every_number_that_is_not_refused_makes_a_sheet(rule: NumberRule) -> None:
    allowed = [n for n in range(-1, LARGEST + 2) if refusal(None, number_rule=rule, n=n) is None]
    assert bool(allowed) == (rule in WITH_N)
    for n in {*allowed[:1], *allowed[::20], *allowed[-1:]}:
        assert codes(make("7", "easier", number_rule=rule, n=n)) == ["7"], n


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (("", "yes"), "shade-by-rule.empty"),
        (("Ice is cold.", ""), "shade-by-rule.empty"),
        (("Ice is cold.", "perhaps"), "shade-by-rule.truth"),
        (("2  +  11 = 13.", "yes"), "shade-by-rule.twice"),
        (("2 + 11 = 13", "no"), "shade-by-rule.contradicts"),
        (("Ice " * 40, "yes"), "shade-by-rule.long"),
        (("Ice is cold.", "yes", "tricky"), "shade-by-rule.level"),
    ],
)
def test_a_faulty_row_is_named_with_its_line(row: tuple[str, ...], code: str) -> None:
    good = [tuple(it.values()) for it in sums(8).rows]
    (problem,) = faults(table([*good, row]))
    assert (problem.code, problem.where.file, problem.where.line) == (code, "s.csv", 10)
    assert said(problem.what) != code
    assert said(problem.remedy) != f"{code}.remedy"


@pytest.mark.parametrize("truth", ["yes", "TRUE", "Right", "1", "y", "t"])
def test_truth_may_be_written_in_many_ways(truth: str) -> None:
    rows = [(f"fact {n}", truth if n % 2 else "0") for n in range(2 * FEWEST)]
    assert list(faults(table(rows))) == []


def test_the_longest_statements_fit_the_largest_print() -> None:
    longest = ""
    while width(longest + "a") <= COLUMN_ROOM[1]:
        longest += " " if len(longest) % 6 == 5 else "a"
    rows = [(f"{longest[:-3]} {n:02}", "yes" if n % 2 else "no") for n in range(30)]
    made = make("4270", "hardest", statements=table(rows))
    assert codes(made) == ["4270"]
    page = page_for(shelf.kind("shade-by-rule"), made.sheet, "sheet", title="T", lang="en")
    for paper in PAPERS:
        for size in SIZES:
            assert render([page], Look(paper, size))


def test_the_teachers_own_rule_stands_on_the_page() -> None:
    made = make("42", statements=sums(20), rule="It is  a right sum.")
    assert squares_of(made).rule == "It is a right sum."
    assert said(shade_by_rule.words(made.sheet, "sheet")["rule"]) == "It is a right sum."


def test_slips_that_show_another_code_are_told() -> None:
    made = make("80", "easier", number_rule="even")
    (solution,) = shade_by_rule.solve(made.sheet, made.knows)
    found = {
        "".join(it.answer.symbols): it.means.id
        for it in shade_by_rule.mistakes(made.sheet, made.knows, solution)
    }
    assert found["08"] == "shade-by-rule.mistake-backwards"
    assert found["90"] == found["60"] == "shade-by-rule.mistake-cell"
    assert "80" not in found
