"""The checks of what a kind owes find each fault that is planted in a sound toy."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from boxwright.problems import Problem, Refused, say
from boxwright.puzzles.contract import Answer, Made, Mistake, NoKnows, Solution
from boxwright.puzzles.shelf import Shelf
from tests.puzzles.owed import CHECKS, Trial

TOYS = Path(__file__).parent / "toys"


@pytest.fixture
def toy(tmp_path: Path) -> Trial:
    """Return a trial of a toy of one's own, free to be spoilt; it borrows a kind's words."""
    for suffix in (".py", ".typ"):
        text = (TOYS / f"tally{suffix}").read_text()
        (tmp_path / f"tally{suffix}").write_text(text)
    return Trial("nonogram", Shelf(tmp_path).kind("tally"), tmp_path)


def spoil(toy: Trial, name: str, value: Any) -> None:
    setattr(toy.kind, name, value)


# What each fault is, and the check that must find it.
FAULTS: dict[str, tuple[str, Callable[[Trial], Any]]] = {}


def fault(check: str) -> Callable[[Callable[[Trial], Any]], Callable[[Trial], Any]]:
    def keep(plant: Callable[[Trial], Any]) -> Callable[[Trial], Any]:
        FAULTS[plant.__name__] = (check, plant)
        return plant

    return keep


@fault("it_comes_back_from_json_with_its_one_answer")
def a_second_answer(toy: Trial) -> None:
    sound = toy.kind.solve

    def solve(sheet: Any, knows: Any) -> Iterator[Solution]:
        for solution in sound(sheet, knows):
            yield solution
            yield solution._replace(answer=Answer("digits", (*solution.answer.symbols[::-1], "0")))

    spoil(toy, "solve", solve)


@fault("the_same_dice_make_the_same_sheet")
def chance_from_elsewhere(toy: Trial) -> None:
    sound, times = toy.kind.make, iter(range(1, 9))

    def make(answer: Any, options: Any, given: Any, dice: Any) -> Made:
        made = sound(answer, options, given, dice)
        return Made(replace(made.sheet, key=replace(made.sheet.key, add=next(times))), made.knows)

    spoil(toy, "make", make)


@fault("what_is_not_refused_is_made")
def some_codes_cannot_be_made(toy: Trial) -> None:
    sound = toy.kind.make

    def make(answer: Any, options: Any, given: Any, dice: Any) -> Made:
        assert "7" not in answer.symbols
        return sound(answer, options, given, dice)

    spoil(toy, "make", make)


@fault("what_it_cannot_carry_is_refused")
def nothing_is_refused(toy: Trial) -> None:
    spoil(toy, "refuse", lambda answer, options, given: None)


@fault("the_sheet_of_two_answers_has_two")
def only_the_first_answer_is_found(toy: Trial) -> None:
    (toy.doubles / "nonogram.json").write_text((TOYS / "nonogram.json").read_text())
    sound = toy.kind.solve
    spoil(toy, "solve", lambda sheet, knows: iter([next(sound(sheet, knows))]))


@fault("a_part_that_lies_apart_is_needed")
def the_key_is_not_needed(toy: Trial) -> None:
    sound = toy.kind.make

    def make(answer: Any, options: Any, given: Any, dice: Any) -> Made:
        made = sound(answer, options, given, dice)
        counts = tuple(count + made.sheet.key.add - 1 for count in made.sheet.sheet.counts)
        dots = replace(made.sheet.sheet, counts=counts)
        return Made(replace(made.sheet, sheet=dots, key=replace(made.sheet.key, add=1)), NoKnows())

    def solve(sheet: Any, knows: Any) -> Iterator[Solution]:
        symbols = tuple(str((count + 1) % 10) for count in sheet.sheet.counts)
        yield Solution(Answer("digits", symbols))

    spoil(toy, "make", make)
    spoil(toy, "solve", solve)


@fault("the_description_keeps_the_answer")
def the_description_tells(toy: Trial) -> None:
    def describe(sheet: Any, part: str) -> Any:
        symbols = next(toy.kind.solve(sheet, NoKnows())).answer.symbols
        return say("nonogram.read", figures=symbols[::-1])

    spoil(toy, "describe", describe)


@fault("a_higher_level_costs_more")
def all_levels_cost_the_same(toy: Trial) -> None:
    sound = toy.kind.effort
    spoil(toy, "effort", lambda sheet: sound(sheet)._replace(steps=1))


@fault("every_leaf_is_drawn")
def a_field_is_not_drawn(toy: Trial) -> None:
    template = toy.doubles / "tally.typ"
    text = template.read_text()
    template.write_text(text.replace("{ (sheet.add,) }", "{ (1,) }"))


@fault("every_leaf_is_drawn")
def a_field_is_drawn_in_white(toy: Trial) -> None:
    template = toy.doubles / "tally.typ"
    template.write_text(template.read_text().replace("fill: black", "fill: white"))


@fault("it_fits_every_page")
def a_sheet_that_is_too_wide(toy: Trial) -> None:
    template = toy.doubles / "tally.typ"
    template.write_text(template.read_text().replace("spacing: 1mm", "spacing: 9mm"))


@fault("the_printed_page_reads_back")
def a_number_that_is_nobodys(toy: Trial) -> None:
    template = toy.doubles / "tally.typ"
    template.write_text(template.read_text().replace("  words.how", "  words.how\n  [1987]"))


@fault("the_hints_lead_on")
def two_hints_alike(toy: Trial) -> None:
    sound = toy.kind.hints
    spoil(toy, "hints", lambda sheet, knows, solution: (sound(sheet, knows, solution)[0],) * 3)


@fault("the_hints_lead_on")
def a_third_hint_without_a_place(toy: Trial) -> None:
    names = ("nonogram.order-one", "nonogram.hint-begin", "nonogram.rules")
    spoil(toy, "hints", lambda sheet, knows, solution: tuple(say(name) for name in names))


@fault("mistakes_are_no_answers")
def a_mistake_that_is_the_answer(toy: Trial) -> None:
    def mistakes(sheet: Any, knows: Any, solution: Solution) -> Iterator[Mistake]:
        yield Mistake(solution.answer, say("nonogram.mistake-backwards"), False)

    spoil(toy, "mistakes", mistakes)


@fault("mistakes_are_no_answers")
def no_mistakes_at_all(toy: Trial) -> None:
    spoil(toy, "mistakes", lambda sheet, knows, solution: iter(()))


@fault("the_working_says_where")
def a_path_that_leads_nowhere(toy: Trial) -> None:
    sound = toy.kind.solve

    def solve(sheet: Any, knows: Any) -> Iterator[Solution]:
        for answer, (step,) in sound(sheet, knows):
            yield Solution(answer, (step._replace(at=(("sheet", "counts", 99),)),))

    spoil(toy, "solve", solve)


@fault("its_words_are_there")
def words_that_no_catalogue_has(toy: Trial) -> None:
    spoil(toy, "words", lambda sheet, part: {"how": say("text.not-there")})


@fault("solving_shares_no_code_with_making")
def one_function_for_both(toy: Trial) -> None:
    file = toy.doubles / "tally.py"
    text = file.read_text().replace("add = dice.between(1, 9)", "add = both(dice.between(1, 9))")
    text = text.replace("str((count + add) % 10)", "str((count + both(add)) % 10)")
    file.write_text(f"{text}\n\ndef both(n: int) -> int:\n    return n\n")
    toy.__dict__["kind"] = Shelf(toy.doubles).kind("tally")


@pytest.mark.parametrize("check", CHECKS)
def test_the_toy_is_sound(toy: Trial, check: str) -> None:
    (toy.doubles / "nonogram.json").write_text((TOYS / "nonogram.json").read_text())
    if check == "the_sheet_of_two_answers_has_two":
        sound = toy.kind.solve
        spoil(toy, "solve", lambda sheet, knows: list(sound(sheet, knows))[:2])
    CHECKS[check](toy)


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_found(toy: Trial, name: str) -> None:
    check, plant = FAULTS[name]
    plant(toy)
    with pytest.raises((AssertionError, Refused, LookupError)):
        CHECKS[check](toy)


def test_every_check_has_a_fault_that_it_finds() -> None:
    assert {check for check, _ in FAULTS.values()} == set(CHECKS)


def test_a_request_is_found_though_nearly_every_code_is_refused(toy: Trial) -> None:
    sound = toy.kind.refuse

    def refuse(answer: Answer, options: Any, given: Any) -> Problem | None:
        """Carry four signs that begin with a five alone: one code in forty."""
        fits = len(answer.symbols) == 4 and answer.symbols[0] == "5"
        return sound(answer if fits else Answer("digits", ()), options, given)

    spoil(toy, "refuse", refuse)
    assert {toy.request(f"rare {n}").answer.symbols[0] for n in range(30)} == {"5"}


def test_a_kind_that_refuses_every_code_is_told_of(toy: Trial) -> None:
    sound = toy.kind.refuse
    spoil(toy, "refuse", lambda _, *more: sound(Answer("digits", ()), *more))
    with pytest.raises(AssertionError, match="every one was refused"):
        toy.request("none")
