"""Source: "Who Owns the Zebra?", Life International, 17 December 1962; its answer (from memory).

One arrangement among (5!)^5 = 24,883,200,000, in which the Norwegian drinks water and the
Japanese owns the zebra. The magazine itself was not at hand: statements and answer are from
memory, and the answer was computed afresh. Besides, CP-SAT as a second solver of sheets that
are made here.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from boxwright.dice import Dice
from boxwright.game.model import LEVELS, Level
from boxwright.puzzles import logic_grid
from boxwright.puzzles.contract import Answer, Given, NoKnows
from boxwright.puzzles.logic_grid_forms import Category, Form, Puzzle, Statement
from boxwright.puzzles.logic_grid_solver import arrangements
from boxwright.puzzles.logic_grid_working import work

LISTS = {
    "people": ("English", "Spanish", "Ukrainian", "Norwegian", "Japanese"),
    "drinks": ("coffee", "tea", "milk", "orange juice", "water"),
    "houses": ("leftmost", "second", "middle", "fourth", "rightmost"),
    "colours": ("red", "green", "ivory", "yellow", "blue"),
    "pets": ("dog", "snails", "fox", "horse", "zebra"),
    "smokes": ("smoke A", "smoke B", "smoke C", "smoke D", "smoke E"),
}
ITEM = {
    thing: (category, member)
    for category, things in enumerate(LISTS.values())
    for member, thing in enumerate(things)
}
SAID: tuple[tuple[Form, str, str, int], ...] = (
    ("is", "English", "red", 0),
    ("is", "Spanish", "dog", 0),
    ("is", "coffee", "green", 0),
    ("is", "Ukrainian", "tea", 0),
    ("by", "ivory", "green", 1),
    ("is", "smoke A", "snails", 0),
    ("is", "smoke B", "yellow", 0),
    ("is", "milk", "middle", 0),
    ("is", "Norwegian", "leftmost", 0),
    ("beside", "smoke C", "fox", 0),
    ("beside", "smoke B", "horse", 0),
    ("is", "smoke D", "orange juice", 0),
    ("is", "Japanese", "smoke E", 0),
    ("beside", "Norwegian", "blue", 0),
)
FIGURES = tuple(tuple(str((2 * row + column) % 10) for column in range(5)) for row in range(5))


def zebra(said: tuple[tuple[Form, str, str, int], ...] = SAID) -> Puzzle:
    """Return the puzzle, read at the Norwegian and at the Japanese."""
    categories = tuple(Category(name, many, name == "houses") for name, many in LISTS.items())
    statements = tuple(Statement(form, (ITEM[a], ITEM[b]), by) for form, a, b, by in said)
    return Puzzle("own", categories, statements, "digits", FIGURES, (3, 4))


def place(arrangement: Any, thing: str) -> int:
    category, member = ITEM[thing]
    return int(arrangement[category][member])


def test_one_arrangement_fits_and_it_is_the_published_one() -> None:
    (found,) = arrangements(zebra())
    assert place(found, "water") == place(found, "Norwegian")
    assert place(found, "zebra") == place(found, "Japanese")


def test_it_solves_to_one_answer_with_a_working_that_needs_no_guess() -> None:
    (solution,) = logic_grid.solve(logic_grid.Sheet(zebra()), NoKnows())
    (found,) = arrangements(zebra())
    drinks = [place(found, "water"), place(found, "Japanese")]
    assert solution.answer.symbols == (
        FIGURES[drinks[0]][LISTS["drinks"].index("water")],
        FIGURES[drinks[1]][LISTS["drinks"].index("coffee")],
    )
    working = work(zebra())
    assert working.done
    assert not working.supposes


@pytest.mark.parametrize("left_out", [4, 7, 8, 9, 10, 13])
def test_without_one_of_its_statements_more_arrangements_fit(left_out: int) -> None:
    fewer = SAID[:left_out] + SAID[left_out + 1 :]
    assert len(list(arrangements(zebra(fewer)))) > 1


# --- CP-SAT ----------------------------------------------------------------------------


def count_by_cp_sat(puzzle: Puzzle) -> int:
    """Return how many arrangements fit, counted to two."""
    from ortools.sat.python import cp_model

    model, size = cp_model.CpModel(), len(puzzle.categories[0].members)
    base = next((at for at, one in enumerate(puzzle.categories) if one.ordered), 0)
    at = [[model.new_int_var(0, size - 1, "") for _ in range(size)] for _ in puzzle.categories]
    for category, places in enumerate(at):
        model.add_all_different(places)
        for member, one in enumerate(places):
            if category == base:
                model.add(one == member)

    for statement in puzzle.statements:
        _add(cp_model, model, statement, [at[c][m] for c, m in statement.items])
    return _counted(cp_model, model, [one for places in at for one in places])


def _add(cp_model: Any, model: Any, statement: Statement, places: list[Any]) -> None:
    a, b, *rest = places
    near = cp_model.Domain.from_values([-1, 1])
    if statement.form == "beside":
        model.add_linear_expression_in_domain(b - a, near)
    elif statement.form == "either":
        model.add_bool_xor([_same(model, a, b), _same(model, a, rest[0])])
    elif statement.form == "pair":
        for one in (a, b):
            model.add_bool_or([_same(model, one, rest[0]), _same(model, one, rest[1])])
        model.add(rest[0] != rest[1])
    else:
        rules = {
            "is": [a == b],
            "not": [a != b],
            "neither": [a != b, *(a != other for other in rest)],
            "before": [a < b],
            "by": [b == a + statement.by],
        }
        for rule in rules[statement.form]:
            model.add(rule)


def _same(model: Any, a: Any, b: Any) -> Any:
    meet = model.new_bool_var("")
    model.add(a == b).only_enforce_if(meet)
    model.add(a != b).only_enforce_if(~meet)
    return meet


def _counted(cp_model: Any, model: Any, variables: list[Any]) -> int:
    for count in range(2):
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        if solver.solve(model) == cp_model.INFEASIBLE:
            return count
        found = [solver.value(one) for one in variables]
        model.add_forbidden_assignments(variables, [found])
    return 2


@pytest.mark.parametrize("level", LEVELS)
def test_cp_sat_agrees_on_fifty_sheets_of_each_level_and_with_a_statement_less(
    level: Level,
) -> None:
    for seed in range(50):
        code = Dice(f"{level} {seed}").sample("0123456789", 1 + seed % 5)
        answer = Answer("digits", tuple(code))
        sheet = logic_grid.make(
            answer, logic_grid.Options(), Given(level=level), Dice(seed)
        ).sheet.sheet
        assert isinstance(sheet, Puzzle)
        assert count_by_cp_sat(sheet) == 1
        if seed % 10 == 0:
            assert count_by_cp_sat(replace(sheet, statements=sheet.statements[1:])) == 2


def test_cp_sat_agrees_on_the_published_puzzle() -> None:
    assert count_by_cp_sat(zebra()) == 1
