"""Three sheets for an answer: each leads to it, they differ, and what is left out is told."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.choose.answers import answer_of, answer_of_word
from boxwright.choose.sheets import make_sheet
from boxwright.choose.suggest import Suggested, at_level, example_code, suggest
from boxwright.content.lesson import content_from, our_table
from boxwright.dice import Dice
from boxwright.game.mechanisms import Device, device_of, entry
from boxwright.game.model import LockMake
from boxwright.problems import Where
from boxwright.puzzles.contract import Answer, Given
from boxwright.puzzles.shelf import names

LOCKS: dict[str, dict[str, Any]] = {
    "number-wheels": {"wheels": 3},
    "letter-wheels": {"wheels": 5},
    "colour-wheels": {"wheels": 3, "faces": ("red", "blue", "green", "yellow")},
    "symbol-wheels": {"wheels": 3, "faces": ("star", "moon", "sun", "leaf")},
    "direction": {},
    "dial": {},
    "keypad": {"length": (4, 4)},
}
LESSONS = ("plants", "numbers", "rivers")


def device(mechanism: str) -> Device:
    return device_of(LockMake.model_validate({"mechanism": mechanism} | LOCKS[mechanism]), here())


def here(path: object = ()) -> Where:
    return Where("lock")


def lesson(name: str, **more: Any) -> Given:
    return Given(content=content_from(our_table(name)), **more)


def answer(mechanism: str, code: tuple[str, ...]) -> Answer:
    found = answer_of(device(mechanism), code)
    assert found is not None
    return found


def kinds(found: Suggested) -> list[str]:
    return [one.request.kind for one in found.sheets]


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(sorted(LOCKS)),
    st.sampled_from((None, *LESSONS)),
    st.sampled_from(((7, 8), (9, 11), (13, 16))),
    st.sampled_from(("easier", "ordinary", "harder", "hardest")),
    st.integers(0, 99),
)
def test_whatever_is_suggested_makes_a_sheet_whose_only_answer_is_the_code(
    mechanism: str, name: str | None, ages: tuple[int, int], level: Any, seed: int
) -> None:
    given = Given(ages=ages) if name is None else lesson(name, ages=ages)
    code = example_code(device(mechanism), given, Dice(seed))
    wanted = answer(mechanism, code)
    found = suggest(wanted, given, Dice(seed))
    assert len(set(kinds(found))) == len(found.sheets) <= 3
    for one in found.sheets:
        # `make_sheet` solves what it made and takes no other answer, and no second one.
        made = make_sheet(at_level(one, level).request, Dice(seed), here)
        assert made.solution.answer == wanted


@pytest.mark.parametrize("mechanism", sorted(LOCKS))
def test_every_kind_is_suggested_left_out_with_a_reason_or_one_of_the_others(
    mechanism: str,
) -> None:
    code = example_code(device(mechanism), Given(), Dice(1))
    found = suggest(answer(mechanism, code), Given(), Dice(1))
    left = {one.kind for one in found.left_out}
    assert left.isdisjoint(kinds(found))
    assert len(left) + len(found.sheets) + found.more == len(names())


@pytest.mark.parametrize(("mechanism", "name"), [
    ("number-wheels", "plants"), ("number-wheels", "numbers"), ("keypad", "rivers"),
    ("direction", "rivers"),
])  # fmt: skip
def test_a_code_is_drawn_to_which_the_lesson_can_lead_and_its_sheet_comes_first(
    mechanism: str, name: str
) -> None:
    code = example_code(device(mechanism), lesson(name), Dice(2))
    first, *_ = suggest(answer(mechanism, code), lesson(name), Dice(2)).sheets
    assert first.from_lesson
    assert first.request.given.content.tables


def test_a_code_that_is_drawn_is_not_weak_and_most_sheets_can_carry_it() -> None:
    lock = device("direction")
    code = example_code(lock, Given(), Dice(3))
    assert entry(lock).weak(lock, code) == ()
    assert "route-map" in kinds(suggest(answer("direction", code), Given(), Dice(3)))


def test_three_differ_in_what_pupils_do() -> None:
    found = suggest(answer("keypad", ("4", "2", "7", "1")), Given(), Dice(1))
    skills = [one.kind.FACTS.skill for one in found.sheets]
    assert len(skills) == 3
    assert not skills[0] & skills[1]


def test_a_lesson_of_another_sort_is_kept_from_kinds_that_cannot_read_it() -> None:
    found = suggest(answer("number-wheels", ("4", "2", "7")), lesson("plants"), Dice(1))
    assert all(not one.request.given.content.tables for one in found.sheets)
    assert len(found.sheets) == 3


def test_pupils_that_are_too_young_are_a_reason() -> None:
    found = suggest(answer("number-wheels", ("4", "2", "7")), Given(ages=(6, 7)), Dice(1))
    assert kinds(found) == ["count-sheet"]
    assert "suggest.too-young" in {one.why.id for one in found.left_out}


def test_a_place_for_a_key_is_led_to_by_its_word() -> None:
    found = suggest(answer_of_word("SHELF"), Given(), Dice(1))
    assert {"pigpen", "bar-picture"} == set(kinds(found))


def test_with_each_turn_others_come_round() -> None:
    wanted = answer("number-wheels", ("4", "2", "7"))
    found = [suggest(wanted, Given(), Dice(1), turn) for turn in range(12)]
    shown = {kind for one in found for kind in kinds(one)}
    left = {one.kind for one in found[0].left_out}
    assert shown == set(names()) - left
