"""Grids to shade: the code shows, tables are told line by line, slips spoil it, all fits a page."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, get_args

import pypdfium2 as pdfium
import pytest
from hypothesis import given as drawn
from hypothesis import settings
from hypothesis import strategies as st

from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.messages import words as said
from boxwright.paper.frame import PAPERS, Look
from boxwright.paper.page import page_for
from boxwright.paper.render import render
from boxwright.problems import Problem
from boxwright.puzzles import shade_by_rule, shelf
from boxwright.puzzles.contract import Alphabet, Answer, GaveUp, Given, Made
from boxwright.puzzles.figures import faces_of
from boxwright.puzzles.nonogram_reading import readings
from boxwright.puzzles.nonogram_setting import Setting, mould
from boxwright.puzzles.nonogram_strays import count_figures
from boxwright.puzzles.shade_by_rule_content import COLUMN_ROOM, faults, width
from boxwright.puzzles.shade_by_rule_judging import MOST_JUDGEMENTS, Shaded, shade
from boxwright.puzzles.shade_by_rule_mistakes import misreadings
from boxwright.puzzles.shade_by_rule_numbers import drawn_numbers, near, others
from boxwright.puzzles.shade_by_rule_sheet import Knows, NumberRule, Sheet, Squares
from tests.puzzles.owed import CHECKS, Trial

FLOATS = [
    "cork",
    "dry oak",
    "ice cube",
    "apple",
    "candle",
    "rubber duck",
    "feather",
    "table tennis ball",
]
FLOATS += ["empty bottle", "pine cone", "orange", "straw", "pencil", "sponge", "dry leaf"]
SINKS = ["steel nail", "pebble", "coin", "glass marble", "brick", "iron key", "potato", "china cup"]
SINKS += ["silver spoon", "sand", "lead weight", "chalk", "wet clay", "grape", "fresh egg"]
NAME = "shade-by-rule"
RULES: tuple[NumberRule, ...] = get_args(NumberRule)


def table(rows: Sequence[Sequence[str]]) -> Table:
    columns = ("statement", "true", "level")
    filled = [(*row, *("",) * (len(columns) - len(row))) for row in rows]
    named = tuple(dict(zip(columns, row, strict=True)) for row in filled)
    return Table("s.csv", columns, named, tuple(range(2, len(rows) + 2)))


def floating(each: int = 15) -> Table:
    return table([*((it, "yes") for it in FLOATS[:each]), *((it, "no") for it in SINKS[:each])])


def given(statements: Table | None, level: Level = "ordinary") -> Given:
    tables = {} if statements is None else {"statements": statements}
    return Given(ages=(9, 11), level=level, content=Content(tables))


def answer(symbols: Sequence[str]) -> Answer:
    alphabet: Alphabet = "digits" if symbols[0].isdigit() else "letters"
    return Answer(alphabet, tuple(symbols))


def refusal(statements: Table | None, code: Sequence[str] = "EEL", **chosen: Any) -> Problem | None:
    return shade_by_rule.refuse(answer(code), shade_by_rule.Options(**chosen), given(statements))


def make(
    code: Sequence[str],
    statements: Table | None = None,
    level: Level = "ordinary",
    seed: int = 1,
    **chosen: Any,
) -> Made:
    if statements is None and "number_rule" not in chosen:
        statements = floating()
    options = shade_by_rule.Options(**chosen)
    assert shade_by_rule.refuse(answer(code), options, given(statements, level)) is None
    return shade_by_rule.make(answer(code), options, given(statements, level), Dice(seed))


def squares(made: Made) -> Squares:
    assert isinstance(made.sheet, Sheet)
    assert made.sheet.sheet is not None
    return made.sheet.sheet


def truths(made: Made) -> dict[str, bool]:
    assert isinstance(made.knows, Knows)
    return {fact.statement: fact.fits for fact in made.knows.facts}


codes = st.one_of(
    st.text("0123456789", min_size=1, max_size=4),
    st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=3),
)
levels = st.sampled_from(LEVELS)
seeds = st.integers(0, 10_000)


@settings(max_examples=40, deadline=None)
@drawn(code=codes, level=levels, seed=seeds)
def test_statements_lead_to_the_code_and_to_no_other(code: str, level: Level, seed: int) -> None:
    made = make(code, level=level, seed=seed)
    assert [it.answer for it in shade_by_rule.solve(*made)] == [answer(code)]


@settings(max_examples=40, deadline=None)
@drawn(code=codes, level=levels, seed=seeds, rule=st.sampled_from(RULES))
def test_number_rules_lead_to_the_code_and_to_no_other(
    code: str, level: Level, seed: int, rule: NumberRule
) -> None:
    made = make(code, level=level, seed=seed, number_rule=rule)
    assert [it.answer for it in shade_by_rule.solve(*made)] == [answer(code)]


@pytest.mark.parametrize("sort", ["digits", "letters"])
def test_a_lone_figure_hides_no_other_so_that_making_always_ends(sort: Any) -> None:
    for face in faces_of(sort):
        for symbol in face.pictures:
            design = mould(symbol, Setting(face, 1, 2, "dark"), (1, 1), Dice(1))
            assert count_figures(design.dark, design.width, sort) == 1, (face.name, symbol)


@settings(max_examples=25, deadline=None)
@drawn(code=codes, level=levels, seed=seeds)
def test_every_statement_of_the_list_is_used(code: str, level: Level, seed: int) -> None:
    sheet = squares(make(code, level=level, seed=seed))
    used = Counter(number for row in sheet.cells for number in row)
    assert sorted(used) == list(range(1, len(sheet.statements) + 1))


@settings(max_examples=25, deadline=None)
@drawn(code=codes, level=levels, seed=seeds, each=st.integers(3, 15))
def test_neighbours_differ(code: str, level: Level, seed: int, each: int) -> None:
    cells = squares(make(code, floating(each), level=level, seed=seed)).cells
    for y, row in enumerate(cells):
        for x, number in enumerate(row):
            assert number not in row[x + 1 : x + 2]
            assert y + 1 == len(cells) or number != cells[y + 1][x]


def test_three_of_each_sort_are_enough() -> None:
    sheet = squares(make("EEL", floating(3), "hardest"))
    assert sorted(sheet.statements) == sorted(FLOATS[:3] + SINKS[:3])


def test_about_as_many_statements_fit_as_do_not() -> None:
    made = make("EEL", level="hardest")
    fits = sum(truths(made).values())
    assert fits == len(truths(made)) // 2


def test_a_lopsided_table_is_used_as_far_as_it_goes() -> None:
    rows = [*((it, "yes") for it in FLOATS[:3]), *((it, "no") for it in SINKS)]
    made = make("EEL", table(rows), "hardest")
    assert sum(truths(made).values()) == 3
    assert len(truths(made)) >= 16


def test_the_sheet_does_not_hold_what_is_true() -> None:
    rows = [*((it, "no") for it in FLOATS), *((it, "yes") for it in SINKS)]
    one, other = make("8", floating(3)), make("8", table(rows[:3] + rows[15:18]))
    assert sorted(squares(one).statements) == sorted(squares(other).statements)
    assert truths(one) == {text: not fits for text, fits in truths(other).items()}


def test_rows_of_another_level_are_left_out() -> None:
    rows = [
        (it, truth, "harder" if at % 2 else "Easier ")
        for things, truth in ((FLOATS, "yes"), (SINKS, "no"))
        for at, it in enumerate(things[:8])
    ]
    assert set(squares(make("8", table(rows), "easier")).statements) == set(
        FLOATS[:8:2] + SINKS[:8:2]
    )


def test_rows_of_another_level_fill_up_where_too_few_suit() -> None:
    rows = [
        (it, truth, "hardest") for it, truth in zip(FLOATS[:3] + SINKS[:3], "yyynnn", strict=True)
    ]
    assert len(squares(make("8", table(rows), "easier")).statements) == 6


def test_long_statements_give_way_where_they_would_leave_too_few() -> None:
    long = [("Sound needs something to travel through it.", "yes"), ("x" * 40, "no")]
    short = [*((it, "yes") for it in FLOATS), *((it, "no") for it in SINKS)]
    sheet = squares(make("EEL", table(long + short), "hardest"))
    assert len(sheet.statements) >= 20
    assert not {text for text, _ in long} & set(sheet.statements)


def test_long_statements_are_shown_where_all_are_long() -> None:
    rows = [(f"{it} needs something to travel through", "yes") for it in FLOATS[:4]]
    rows += [(f"{it} was never needed for anything here", "no") for it in SINKS[:4]]
    assert len(squares(make("EEL", table(rows), "hardest")).statements) == 8


# What is refused


def first(rows: Sequence[Sequence[str]]) -> Problem:
    problem = next(faults(table(rows)))
    for message in (problem.what, problem.remedy):
        assert not said(message).startswith(message.id)
    return problem


GOOD = [*((it, "yes") for it in FLOATS[:3]), *((it, "no") for it in SINKS[:3])]


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (("", "yes"), "empty"),
        (("copper", ""), "empty"),
        (("copper", "perhaps"), "truth"),
        ((" Cork. ", "yes"), "twice"),
        (("CORK", "no"), "contradicts"),
        (("w" * 40, "no"), "long"),
        (("copper", "no", "middling"), "level"),
    ],
)
def test_a_faulty_row_is_told_with_its_line(row: Sequence[str], code: str) -> None:
    problem = first([*GOOD, row])
    assert problem.code == f"{NAME}.{code}"
    assert (problem.where.file, problem.where.line) == ("s.csv", 8)


def test_a_contradiction_names_the_other_row() -> None:
    assert "line 2" in said(first([*GOOD, ("cork", "no")]).what)


@pytest.mark.parametrize("left_out", [0, 5])
def test_two_of_a_sort_are_too_few(left_out: int) -> None:
    rows = [row for at, row in enumerate(GOOD) if at != left_out]
    problem = first(rows)
    assert (problem.code, problem.where.file) == (f"{NAME}.too-few", "s.csv")


def test_the_lengths_that_a_remedy_names_are_taken() -> None:
    text = "copper carries electricity better than any other metal does"
    most = first([*GOOD, (text, "no")]).what.args["most"]
    assert isinstance(most, int)
    assert list(faults(table([*GOOD, (text[:most].strip(), "no")]))) == []


@pytest.mark.parametrize("truth", ["yes", "Y", " TRUE ", "right", "1"])
def test_yes_is_taken_in_many_words(truth: str) -> None:
    assert list(faults(table([*GOOD[1:], ("cork", truth)]))) == []


@pytest.mark.parametrize(
    ("statements", "chosen", "code", "path"),
    [
        (None, {}, "no-table", ("content",)),
        (floating(), {"number_rule": "even"}, "two-rules", ("options", "number_rule")),
        (None, {"number_rule": "even", "rule": "It is so."}, "rule-unused", ("options", "rule")),
        (floating(), {"n": 3}, "n-unused", ("options", "n")),
        (floating(), {"rule": "It floats " * 7}, "long-rule", ("options", "rule")),
        (floating(), {"rule": "w" * 40}, "long-word", ("options", "rule")),
        (None, {"number_rule": "even", "n": 2}, "n-not-needed", ("options", "n")),
        (None, {"number_rule": "multiples", "n": 34}, "n", ("options", "n")),
        (None, {"number_rule": "multiples", "n": 1}, "n", ("options", "n")),
        (None, {"number_rule": "multiples", "n": 0}, "n", ("options", "n")),
        (None, {"number_rule": "multiples", "n": -3}, "n", ("options", "n")),
        (None, {"number_rule": "factors", "n": 7}, "n", ("options", "n")),
        (None, {"number_rule": "above", "n": 97}, "n", ("options", "n")),
        (None, {"number_rule": "below", "n": 3}, "n", ("options", "n")),
        (None, {"number_rule": "digit-sum", "n": 17}, "n", ("options", "n")),
    ],
)
def test_options_that_clash_are_told(
    statements: Table | None, chosen: dict[str, Any], code: str, path: tuple[str, ...]
) -> None:
    problem = refusal(statements, **chosen)
    assert problem is not None
    assert (problem.code, problem.where.path) == (f"{NAME}.{code}", path)
    for message in (problem.what, problem.remedy):
        assert not said(message).startswith(message.id)


@pytest.mark.parametrize("rule", RULES)
def test_every_number_that_is_not_refused_makes_a_sheet(rule: NumberRule) -> None:
    for n in (*range(-2, 130, 4), 33, 99):
        if refusal(None, "407", number_rule=rule, n=n) is None:
            made = make("407", number_rule=rule, n=n, level=LEVELS[n % 4])
            assert squares(made).n == n
            assert [it.answer for it in shade_by_rule.solve(*made)] == [answer("407")]


# Slips


def test_no_single_statement_judged_wrongly_leaves_another_code() -> None:
    for seed in range(12):
        made = make("EEL", seed=seed)
        (solution,) = shade_by_rule.solve(*made)
        ids = [it.means.id for it in shade_by_rule.mistakes(*made, solution)]
        assert not [id for id in ids if id.startswith(f"{NAME}.mistake-statement")]


def test_a_statement_judged_wrongly_is_a_mistake_where_it_leaves_another_figure() -> None:
    """In small digits, 6 and 8 differ in one cell; here a statement of its own holds it."""
    rows = ("55555", "51215", "52435", "51215", "52425", "51215", "55555")
    grid = tuple(tuple(map(int, row)) for row in rows)
    sheet = Squares("", None, None, ("a", "b", "c", "d", "e"), grid, "digits", 1, 1)
    fits = frozenset({1, 2})
    found = list(misreadings(sheet, Shaded(fits, shade(sheet, fits), (("6",),)), ("6",)))
    statement = next(it for it in found if "statement" in it.means.id)
    assert statement.symbols == ("8",)
    assert "“c”" in said(statement.means)


def test_what_is_not_known_is_tried_both_ways_up_to_a_bound() -> None:
    made = make("EEL", level="hardest")
    with pytest.raises(GaveUp) as stopped:
        list(shade_by_rule.solve(made.sheet, Knows()))
    assert stopped.value.bound == MOST_JUDGEMENTS


def test_one_statement_that_is_not_known_spoils_no_answer() -> None:
    made = make("EEL")
    facts = made.knows.facts[1:]
    found = {it.answer for it in shade_by_rule.solve(made.sheet, Knows(facts))}
    assert found == {answer("EEL")}


def test_numbers_come_nearer_as_levels_rise() -> None:
    for rule in RULES:
        shares = []
        for level in ("easier", "hardest"):
            near_count = total = 0
            for seed in range(10):
                n = 7 if rule == "multiples" else 12
                _, misfits = drawn_numbers(rule, n, level, Dice(seed))
                near_count += len(near(rule, n, others(rule, n)) & set(misfits))
                total += len(misfits)
            shares.append(near_count / total)
        assert shares[0] < shares[1], rule


def test_one_is_never_held_against_primes() -> None:
    for seed in range(20):
        cells = squares(make("407", number_rule="prime", level="hardest", seed=seed)).cells
        assert 1 not in {number for row in cells for number in row}


def test_the_basis_is_declared_with_statements_and_computed_with_numbers() -> None:
    assert shade_by_rule.basis(make("EEL").sheet) == "declared"
    assert shade_by_rule.basis(make("EEL", number_rule="odd").sheet) == "computed"


# The page


def rendered(made: Made, look: Look) -> bytes:
    kind = shelf.kind(NAME)
    page = page_for(kind, made.sheet, "sheet", title="Shade", lang="en", group=True)
    return render([page], look)


def test_the_code_is_read_off_the_text_of_the_printed_page() -> None:
    """The numbers in the printed cells, with the truths of the printed list, give the code."""
    made = make("EEL", level="hardest")
    document = pdfium.PdfDocument(rendered(made, Look("a4", 12)))
    text = document[0].get_textpage().get_text_range()
    words = shade_by_rule.words(made.sheet, "sheet")
    head, _, foot = text.partition(said(words["up"]))
    listed = dict(re.findall(r"^(\d+)\s+(.+?)\s*$", head, re.MULTILINE))
    numbers = re.findall(r"\d+", foot.partition(said(words["find"])[:12])[0])
    width = len(squares(made).cells[0])
    signs = "".join("#" if truths(made)[listed[number]] else "." for number in numbers)
    grid = [signs[at : at + width] for at in range(0, len(signs), width)]
    assert readings(grid, "letters", 3, 1) == [tuple("EEL")]


def widest(room: float, sign: str, at: int) -> str:
    text = f"{at:02}"
    while width(f"{text}{sign}") <= room:
        text += sign
    return text


@pytest.mark.parametrize("columns", COLUMN_ROOM)
@pytest.mark.parametrize("sign", ["W", "i", "8"])
def test_the_widest_statements_fit_the_largest_print(columns: int, sign: str) -> None:
    rows = [(widest(COLUMN_ROOM[columns], sign, at), "yes" if at % 2 else "no") for at in range(40)]
    rule = "MWMWMW MWMW MWMWMW MWMW wwww MWMWMW mwmwm MWMWMW MWMW wwww"
    made = make("MWM", table(rows), "hardest", rule=rule)
    for paper in PAPERS:
        rendered(made, Look(paper, 18))


@pytest.mark.parametrize("rule", ["digit-sum", "multiples"])
@pytest.mark.parametrize("code", ["MWQ", "8888", "I"])
def test_numbers_fit_every_page(rule: NumberRule, code: str) -> None:
    for level in LEVELS:
        made = make(code, number_rule=rule, level=level)
        for paper in PAPERS:
            rendered(made, Look(paper, 18))


class NumbersTrial(Trial):
    """The kind without a table, so by number rules alone."""

    def given(self, chance: Any, level: Level) -> Given:
        return replace(super().given(chance, level), content=Content())

    def options(self, chance: Any) -> Any:
        return shade_by_rule.Options(number_rule=chance.choice(RULES))


@pytest.mark.parametrize("check", CHECKS)
def test_number_rules_give_what_a_kind_owes(check: str) -> None:
    fewer = {"count": 30} if check == "what_is_not_refused_is_made" else {}
    CHECKS[check](NumbersTrial(NAME, shelf.kind(NAME)), **fewer)
