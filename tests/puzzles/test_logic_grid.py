"""Logic grids: one arrangement, nothing to spare, no guess, fair figures, any words."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.content.tables import Content, Table
from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.game.wordlists import unsuitable_inside
from boxwright.messages import words as said
from boxwright.paper.frame import PAPERS, SIZES, Look
from boxwright.paper.page import page_for
from boxwright.paper.render import render
from boxwright.problems import Problem
from boxwright.puzzles import logic_grid
from boxwright.puzzles.contract import Answer, GaveUp, Given, Made
from boxwright.puzzles.logic_grid_cells import cells
from boxwright.puzzles.logic_grid_figures import lines
from boxwright.puzzles.logic_grid_forms import (
    ITEMS,
    Arrangement,
    Category,
    Form,
    Puzzle,
    Statement,
)
from boxwright.puzzles.logic_grid_maker import FORMS, _statements
from boxwright.puzzles.logic_grid_scenes import SCENES, categories_of
from boxwright.puzzles.logic_grid_solver import arrangements, read
from boxwright.puzzles.logic_grid_tables import fits, tables
from boxwright.puzzles.logic_grid_words import mark, page_words, sentence
from boxwright.puzzles.logic_grid_working import work
from tests.puzzles.logic_grid_reader import all_that_fit

METALS = {
    "Metal": ["copper", "iron", "tin", "zinc", "lead"],
    "Use": ["pipes", "rails", "cans", "gutters", "weights"],
    "Shelf": ["top", "upper", "middle", "lower", "bottom"],
}
CODES = st.one_of(
    st.lists(st.sampled_from("0123456789"), min_size=1, max_size=5),
    st.lists(st.sampled_from("ABCDEFGHIJKLMNOPQRSTUVWXYZ"), min_size=1, max_size=5),
).map(tuple)


def answer_of(code: str | tuple[str, ...]) -> Answer:
    symbols = tuple(code)
    return Answer("digits" if symbols[0].isdigit() else "letters", symbols)


def table(lists: dict[str, list[str]]) -> Table:
    rows = tuple({"category": c, "member": m} for c, members in lists.items() for m in members)
    return Table("metals.csv", ("category", "member"), rows, tuple(range(2, len(rows) + 2)))


def given_for(lists: dict[str, list[str]] | None, level: Level = "ordinary") -> Given:
    content = Content({"categories": table(lists)}) if lists else Content()
    return Given(level=level, content=content)


def make(
    code: str | tuple[str, ...],
    level: Level = "ordinary",
    seed: int = 1,
    lists: dict[str, list[str]] | None = None,
    **options: Any,
) -> Made:
    chosen = logic_grid.Options(**options)
    answer = answer_of(code)
    about = given_for(lists, level)
    assert logic_grid.refuse(answer, chosen, about) is None
    return logic_grid.make(answer, chosen, about, Dice(seed))


def puzzle_of(made: Made) -> Puzzle:
    found: Puzzle = made.sheet.sheet
    return found


MANY = [(level, seed) for level in LEVELS for seed in range(6)]


@pytest.mark.parametrize("level", LEVELS)
@given(code=CODES, seed=st.integers(0, 10**6))
@settings(max_examples=12)
def test_every_code_of_up_to_five_can_be_made_and_has_one_reading(
    level: Level, code: tuple[str, ...], seed: int
) -> None:
    made = make(code, level, seed)
    assert [s.answer.symbols for s in logic_grid.solve(made.sheet, made.knows)] == [code]


@pytest.mark.parametrize("code", ["525", "555", "00000", "ZZ", "7"])
def test_figures_may_come_again(code: str) -> None:
    made = make(code, "easier")
    assert next(logic_grid.solve(made.sheet, made.knows)).answer.symbols == tuple(code)


@pytest.mark.parametrize(("level", "seed"), MANY)
def test_a_pupil_who_reads_the_sentences_and_tries_all_finds_the_code(
    level: Level, seed: int
) -> None:
    made = make("427", level, seed)
    puzzle = puzzle_of(made)
    texts = {name: said(message) for name, message in page_words(puzzle).items()}
    size = len(puzzle.categories[0].members)
    lists = [[texts[f"member-{c}-{m}"] for m in range(size)] for c in range(3)]
    sentences = [texts[f"statement-{at}"] for at in range(len(puzzle.statements))]
    (rows,) = all_that_fit(sentences, lists, 2)
    by_row = [{rows[thing]: at for at, thing in enumerate(things)} for things in lists]
    names = [rows[lists[0][member]] for member in puzzle.order]
    assert "".join(puzzle.figures[by_row[2][n]][by_row[1][n]] for n in names) == "427"


@pytest.mark.parametrize("lists", [None, METALS], ids=["scene", "own"])
@pytest.mark.parametrize(("level", "seed"), MANY)
def test_no_statement_is_to_spare(
    level: Level, seed: int, lists: dict[str, list[str]] | None
) -> None:
    puzzle = puzzle_of(make("427", level, seed, lists))
    for left_out in puzzle.statements:
        others = [one for one in puzzle.statements if one is not left_out]
        assert len(list(arrangements(puzzle, others))) > 1


@pytest.mark.parametrize("ordered", ["", "Shelf"])
@pytest.mark.parametrize("lists", [None, METALS], ids=["scene", "own"])
@pytest.mark.parametrize(("level", "seed"), MANY)
def test_a_pencil_gets_there_without_a_guess_and_each_find_is_true(
    level: Level, seed: int, lists: dict[str, list[str]] | None, ordered: str
) -> None:
    puzzle = puzzle_of(make("427", level, seed, lists, ordered=ordered if lists else ""))
    (arrangement,) = arrangements(puzzle)
    working = work(puzzle)
    assert working.done
    assert not working.supposes
    grid = cells(len(puzzle.categories), len(puzzle.categories[0].members))
    for find in working.finds:
        for wanted, squares in ((True, find.ticks), (False, find.crosses)):
            for square in grid.squares(squares):
                a, b = grid.items(square)
                assert (arrangement[a[0]][a[1]] == arrangement[b[0]][b[1]]) is wanted
        assert all(need < working.finds.index(find) for need in find.needs)


def depths(level: Level, lists: dict[str, list[str]] | None = None, **more: Any) -> list[int]:
    puzzles = [puzzle_of(make("427", level, seed, lists, **more)) for seed in range(10)]
    return [work(puzzle).depth for puzzle in puzzles]


def test_hard_sheets_need_chains_of_three_and_more() -> None:
    assert min(depths("harder")) >= 3
    assert min(depths("hardest")) >= 4


def test_easier_sheets_need_short_chains() -> None:
    assert max(depths("easier")) <= 2


def test_with_own_words_in_an_order_hard_sheets_are_harder_too() -> None:
    levels = [sum(depths(level, METALS, ordered="Shelf")) for level in LEVELS]
    assert levels == sorted(set(levels))


def test_sheets_have_between_four_and_eight_statements_of_three_forms_or_more() -> None:
    puzzles = [puzzle_of(make("427", level, seed)) for level, seed in MANY]
    counts = [len(puzzle.statements) for puzzle in puzzles]
    forms = [len({one.form for one in puzzle.statements}) for puzzle in puzzles]
    assert min(counts) >= 4
    assert max(counts) <= 8
    assert min(forms) >= 3


def test_every_form_comes_up() -> None:
    puzzles = [puzzle_of(make("427", level, seed)) for level, seed in MANY]
    assert {one.form for puzzle in puzzles for one in puzzle.statements} == set(FORMS)


@pytest.mark.parametrize("scene", [*SCENES, "own"])
def test_every_statement_that_can_be_drawn_has_its_sentence_with_all_its_things(scene: Any) -> None:
    if scene == "own":
        members = [tuple(members) for members in METALS.values()]
        categories: tuple[Category, ...] = tuple(
            Category(name, five, name == "Shelf")
            for name, five in zip(METALS, members, strict=True)
        )
    else:
        categories = categories_of(scene, 5, Dice(1))
    puzzle = Puzzle(scene, categories, (), "digits", (), ())
    names = {key: said(message) for key, message in page_words(puzzle).items()}
    for statement in _statements(3, 5, 2):
        text = said(sentence(puzzle, statement))
        assert not text.startswith("logic-grid.")
        assert all(names[f"member-{c}-{m}"] in text for c, m in statement.items)


# --- solving ---------------------------------------------------------------------------

TRUTHS: dict[str, Any] = {
    "is": lambda n, a, b: a == b,
    "not": lambda n, a, b: a != b,
    "either": lambda n, a, b, c: (a == b) + (a == c) == 1,
    "neither": lambda n, a, b, c: a != b and a != c,
    "pair": lambda n, a, b, x, y: (a, b) in ((x, y), (y, x)) and a != b,
    "before": lambda n, a, b: a < b,
    "by": lambda n, a, b: b == a + n,
    "beside": lambda n, a, b: b in (a - 1, a + 1),
}


def bare(size: int, ordered: int) -> Puzzle:
    names = [tuple(f"{c}{m}" for m in range(size)) for c in "abc"]
    categories = tuple(Category("x", one, at == ordered) for at, one in enumerate(names))
    block = tuple(tuple(str(y * size + x) for x in range(size)) for y in range(size))
    return Puzzle("own", categories, (), "digits", block, (0,))


def by_force(size: int, base: int, statements: list[Statement]) -> set[Arrangement]:
    free = list(permutations(range(size)))
    rows = [[tuple(range(size))] if at == base else free for at in range(3)]
    return {
        found
        for found in product(*rows)
        if all(TRUTHS[one.form](one.by, *(found[c][m] for c, m in one.items)) for one in statements)
    }


@st.composite
def statements_of(draw: st.DrawFn, size: int) -> list[Statement]:
    """Draw statements that may be odd, idle or contradict each other."""
    found = []
    for _ in range(draw(st.integers(0, 5))):
        form: Form = draw(st.sampled_from(FORMS))
        item = st.tuples(st.integers(0, 2), st.integers(0, size - 1))
        items = draw(st.lists(item, min_size=ITEMS[form], max_size=ITEMS[form], unique=True))
        found.append(Statement(form, tuple(items), draw(st.integers(1, 3)) * (form == "by")))
    return found


@pytest.mark.parametrize("ordered", [-1, 0, 2])
@pytest.mark.parametrize("size", [3, 4])
@given(data=st.data())
@settings(max_examples=25)
def test_the_solver_finds_what_brute_force_over_all_permutations_finds(
    size: int, ordered: int, data: st.DataObject
) -> None:
    statements = data.draw(statements_of(size))
    puzzle = bare(size, ordered)
    found = list(arrangements(puzzle, statements))
    assert set(found) == by_force(size, max(0, ordered), statements)
    assert len(set(found)) == len(found)


@pytest.mark.parametrize("size", [3, 4])
@given(data=st.data())
@settings(max_examples=30)
def test_the_makers_truth_tables_count_what_the_solver_finds(
    size: int, data: st.DataObject
) -> None:
    statements = data.draw(statements_of(size))
    table = tables(3, size, 2)
    left = table.all
    for statement in statements:
        left &= table.of(statement)
    assert left.bit_count() == len(list(arrangements(bare(size, 2), statements)))


@pytest.mark.parametrize("seed", range(6))
def test_the_makers_truth_tables_count_what_the_solver_finds_among_five(seed: int) -> None:
    statements = puzzle_of(make("42715", "hardest", seed)).statements
    table = tables(3, 5, 2)
    for less in range(3):
        left = table.all
        for statement in statements[less:]:
            left &= table.of(statement)
        assert left.bit_count() == len(list(arrangements(bare(5, 2), statements[less:])))


@given(data=st.data())
@settings(max_examples=25)
def test_a_pencil_never_marks_what_some_arrangement_denies(data: st.DataObject) -> None:
    statements = data.draw(statements_of(4))
    puzzle = replace(bare(4, 2), statements=tuple(statements))
    working, grid = work(puzzle), cells(3, 4)
    for found in arrangements(puzzle):
        for find in working.finds:
            for wanted, squares in ((True, find.ticks), (False, find.crosses)):
                for square in grid.squares(squares):
                    a, b = grid.items(square)
                    assert (found[a[0]][a[1]] == found[b[0]][b[1]]) is wanted


def test_without_statements_all_arrangements_are_found() -> None:
    assert len(list(arrangements(bare(4, -1)))) == 24 * 24


def test_the_solver_gives_up_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("boxwright.puzzles.logic_grid_solver.MOST_TRIALS", 10)
    with pytest.raises(GaveUp) as caught:
        list(arrangements(bare(4, -1)))
    assert caught.value.bound == 10


# --- figures ---------------------------------------------------------------------------


@pytest.mark.parametrize("code", ["525", "4271", "DOG", "STORM"])
def test_no_line_of_the_block_holds_the_code(code: str) -> None:
    for seed in range(12):
        for line in lines(puzzle_of(make(code, "easier", seed)).figures):
            text = "".join(line)
            assert code not in text
            assert code[::-1] not in text
            assert code.isdigit() or not unsuitable_inside(text)


def test_who_is_read_is_not_who_stands_first() -> None:
    orders = {puzzle_of(make("427", "ordinary", seed)).order for seed in range(30)}
    assert len(orders) > 15


# --- the teacher's own -----------------------------------------------------------------


def refused(code: str, lists: dict[str, list[str]], **options: Any) -> Problem:
    problem = logic_grid.refuse(answer_of(code), logic_grid.Options(**options), given_for(lists))
    assert problem is not None
    assert not said(problem.what).startswith("logic-grid.")
    assert not said(problem.remedy).startswith("logic-grid.")
    return problem


def test_own_categories_are_used_in_their_words() -> None:
    made = make("427", lists=METALS, ordered="Shelf")
    puzzle = puzzle_of(made)
    assert [one.name for one in puzzle.categories] == ["Metal", "Use", "Shelf"]
    assert [one.ordered for one in puzzle.categories] == [False, False, True]
    for one in puzzle.categories:
        places = [METALS[one.name].index(member) for member in one.members]
        assert places == sorted(places)


def test_without_an_order_nothing_is_compared() -> None:
    for seed in range(8):
        for one in puzzle_of(make("427", "hardest", seed, METALS)).statements:
            assert one.form not in ("before", "by", "beside")


def test_four_short_categories_of_three_are_all_used() -> None:
    four = {name: members[:3] for name, members in METALS.items()} | {"Sign": ["Cu", "Fe", "Sn"]}
    made = make("427", lists=four)
    assert len(puzzle_of(made).categories) == 4
    assert len(list(arrangements(puzzle_of(made)))) == 1


def test_a_code_longer_than_the_categories_is_refused_with_their_sizes() -> None:
    three = {name: members[:3] for name, members in METALS.items()}
    problem = refused("4271", three)
    assert problem.code == "logic-grid.too-few"
    assert "Metal: 3" in said(problem.what)
    assert logic_grid.refuse(answer_of("427"), logic_grid.Options(), given_for(three)) is None


@pytest.mark.parametrize(
    ("lists", "options", "code", "line"),
    [
        (METALS | {"Use": ["pipes", "tin", "cans"]}, {}, "logic-grid.twice", 8),
        (METALS | {"Use": ["pipes", "", "cans"]}, {}, "logic-grid.empty-cell", 8),
        (METALS | {"Use": ["a very long use", "x", "y"]}, {}, "logic-grid.long-member", 7),
        (METALS | {"A long category": ["x", "y", "z"]}, {}, "logic-grid.long-category", 17),
        (METALS, {"ordered": "Self"}, "logic-grid.no-such-order", None),
        (METALS | {"Day": ["x"]}, {"ordered": "Day"}, "logic-grid.short-order", None),
        (METALS, {"scene": "hut"}, "logic-grid.scene-too", None),
    ],
)
def test_what_is_wrong_with_a_table_is_named_with_its_line(
    lists: dict[str, list[str]], options: dict[str, Any], code: str, line: int | None
) -> None:
    problem = refused("427", lists, **options)
    assert problem.code == code
    assert problem.where.line == line
    assert problem.where.file == ("metals.csv" if line or "short" in code else "")


def test_other_tables_and_orders_of_nothing_are_refused() -> None:
    terms = Table("t.csv", ("term", "meaning"), ({"term": "a", "meaning": "b"},), (2,))
    wrong = Given(content=Content({"terms": terms}))
    problem = logic_grid.refuse(answer_of("427"), logic_grid.Options(), wrong)
    assert problem is not None
    assert problem.code == "logic-grid.no-categories"
    alone = logic_grid.refuse(answer_of("427"), logic_grid.Options(ordered="Day"), Given())
    assert alone is not None
    assert alone.code == "logic-grid.order-of-nothing"


def test_words_of_any_sort_are_set_in_quotes_and_never_read_as_markup() -> None:
    odd = {"#let x": ["*tin*", "{a}", "5 %"], "Q": ["“x”", "$y$", "_z_"], "R": ["1st", "2nd", "é"]}
    puzzle = puzzle_of(make("427", lists=odd))
    assert all("“" in said(sentence(puzzle, one)) for one in puzzle.statements)
    page = page_for(logic_grid, logic_grid.Sheet(puzzle), "sheet", title="x", lang="en")
    assert render([page], Look("a4", 12))


# --- colours and signs -----------------------------------------------------------------


def test_faces_fill_the_block_from_all_that_are_known() -> None:
    colours = Answer("faces", ("red", "blue", "red"))
    options = logic_grid.Options(faces=("green",))
    made = logic_grid.make(colours, options, Given(), Dice(2))
    shown = {face for row in puzzle_of(made).figures for face in row}
    assert shown == {"red", "blue", "green"}
    assert "R = red" not in said(page_words(puzzle_of(made))["legend"])
    assert "r = red" in said(page_words(puzzle_of(made))["legend"])


def test_faces_are_taken_from_a_category_that_holds_them() -> None:
    lists = METALS | {"Use": ["red", "blue", "green", "white"]}
    made = logic_grid.make(
        Answer("faces", ("red", "red", "red")), logic_grid.Options(), given_for(lists), Dice(1)
    )
    shown = {face for row in puzzle_of(made).figures for face in row}
    assert shown > {"red"}
    assert shown <= {"red", "blue", "green", "white"}


def test_one_colour_alone_is_refused_until_more_are_named() -> None:
    red = Answer("faces", ("red", "red", "red"))
    problem = logic_grid.refuse(red, logic_grid.Options(), Given())
    assert problem is not None
    assert problem.code == "logic-grid.lone-face"
    mended = logic_grid.Options(faces=("blue",))
    assert logic_grid.refuse(red, mended, Given()) is None


# --- hints, mistakes, effort, page ------------------------------------------------------


def test_the_hint_names_a_tick_of_the_solution() -> None:
    for level, seed in MANY:
        made = make("427", level, seed)
        puzzle = puzzle_of(made)
        (solution,) = logic_grid.solve(made.sheet, made.knows)
        _, second, third = logic_grid.hints(made.sheet, made.knows, solution)
        assert second.args["mark"] in {mark(at) for at in range(len(puzzle.statements))}
        texts = {said(m): k for k, m in page_words(puzzle).items() if k.startswith("member")}
        a, b = (texts[said_of(third.args[name])].split("-")[1:] for name in "ab")
        (rows,) = arrangements(puzzle)
        together = rows[int(a[0])][int(a[1])] == rows[int(b[0])][int(b[1])]
        assert together is (third.id == "logic-grid.hint-tick")


def said_of(arg: Any) -> str:
    return arg if isinstance(arg, str) else said(arg)


def test_a_misread_statement_is_told_with_the_code_that_it_gives() -> None:
    seen = set()
    for level, seed in MANY:
        made = make("427", level, seed)
        (solution,) = logic_grid.solve(made.sheet, made.knows)
        for mistake in logic_grid.mistakes(made.sheet, made.knows, solution):
            assert mistake.answer != solution.answer
            assert len(mistake.answer.symbols) == 3
            seen.add(mistake.means.id)
    assert {"logic-grid.mistake-rows", "logic-grid.mistake-turned"} <= seen
    assert {"logic-grid.mistake-missed-not", "logic-grid.mistake-opposite"} <= seen


def test_the_right_arrangement_alone_passes_what_the_sheet_says() -> None:
    made = make("427", "harder", 3)
    (rows,) = arrangements(puzzle_of(made))
    assert all(fits(one, rows) for one in puzzle_of(made).statements)
    assert read(puzzle_of(made), rows) == ("4", "2", "7")
    (solution,) = logic_grid.solve(made.sheet, made.knows)
    solved = logic_grid.solved(made.sheet, made.knows, solution)
    assert solved == {"places": [list(row) for row in rows]}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("size", SIZES)
def test_five_lines_of_own_words_fit_every_page(paper: Any, size: Any) -> None:
    for seed in range(2):
        sheet = make("52752", "hardest", seed, METALS, ordered="Shelf").sheet
        page = page_for(logic_grid, sheet, "sheet", title="Where is the needle?", lang="en")
        assert render([page], Look(paper, size))
