"""Cards of steps: every step once, in order, with boxes to tick that keep their names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from boxwright.build import Asked, build
from boxwright.choose.card import card, tick_name
from boxwright.choose.edition import edition_from_json, edition_json
from boxwright.choose.failing import helping
from boxwright.choose.gear import Gear
from boxwright.choose.setting_up import reset, set_up
from boxwright.choose.steps import Step
from boxwright.choose.tray import tray
from boxwright.game.choosing import Wishes
from boxwright.messages import words
from boxwright.problems import Message
from tests.games import EXAMPLES

PLANS = {"set-up": set_up, "reset": reset}


@cache
def gears(groups: int = 2) -> tuple[Gear, ...]:
    made = build(Asked(EXAMPLES / "tide-mill", Wishes(groups=groups)))
    return tuple(Gear(edition, made.folder) for edition in made.editions)


def ids(steps: tuple[Step, ...]) -> list[str]:
    return [tick.id for step in steps for tick in step.ticks]


def step(gear: Gear, act: str, thing: str, plan: str = "set-up") -> Step:
    return next(one for one in PLANS[plan](gear) if (one.act, one.thing) == (act, thing))


@pytest.mark.parametrize("plan", PLANS)
def test_a_card_has_every_step_once_and_in_order(plan: str) -> None:
    [gear] = gears()
    steps = PLANS[plan](gear)
    parts = card(gear, steps)
    sections = [one for part in parts for bunch in part.bunches for one in bunch.sections]
    assert [line.step for section in sections for line in section.lines] == list(steps)
    assert [part.time for part in parts] == ["before", "room", "arrival"]


def test_minutes_left_run_down_to_none() -> None:
    [gear] = gears()
    bunches = [one for part in card(gear, set_up(gear)) for one in part.bunches]
    for one, later in pairwise(bunches):
        assert one.left == later.left + later.minutes
    assert bunches[-1].left == 0


def test_a_lock_is_drawn_once() -> None:
    [gear] = gears()
    lines = [
        line
        for part in card(gear, set_up(gear))
        for bunch in part.bunches
        for section in bunch.sections
        for line in section.lines
    ]
    drawn = [line.step.thing for line in lines if line.drawn]
    handled = {one.thing for one in set_up(gear) if one.act in ("set", "test")}
    assert sorted(drawn) == sorted(handled)


@pytest.mark.parametrize("plan", PLANS)
def test_no_two_boxes_to_tick_share_an_id(plan: str) -> None:
    [gear] = gears()
    found = ids(PLANS[plan](gear))
    assert len(set(found)) == len(found)


@pytest.mark.parametrize("plan", PLANS)
def test_ids_are_the_same_whenever_a_printed_set_is_read_anew(plan: str) -> None:
    [gear] = gears()
    again = Gear(edition_from_json(edition_json(gear.edition)), gear.folder)
    assert ids(PLANS[plan](again)) == ids(PLANS[plan](gear))


def test_ids_do_not_depend_on_what_else_is_to_be_done() -> None:
    [gear] = gears()
    few = replace(gear.edition.game, items={})
    lean = Gear(replace(gear.edition, game=few, sheets={}), gear.folder)
    assert set(ids(set_up(lean))) < set(ids(set_up(gear)))


def test_an_id_names_act_thing_and_group() -> None:
    [gear] = gears()
    lock = next(iter(gear.edition.game.locks))
    ticks = step(gear, "set", lock).ticks
    assert [tick.id for tick in ticks] == [f"set:{lock}:1", f"set:{lock}:2"]


def test_what_is_done_once_has_one_box_that_counts_for_all() -> None:
    [gear] = gears()
    done = step(gear, "cut", "")
    [tick] = done.ticks
    assert (tick.groups, tick.seconds) == (("1", "2"), done.seconds)


@pytest.mark.parametrize("plan", PLANS)
def test_ticks_take_as_long_as_their_steps(plan: str) -> None:
    [gear] = gears()
    steps = PLANS[plan](gear)
    ticks = [tick for one in steps for tick in one.ticks]
    assert sum(tick.seconds for tick in ticks) == sum(one.seconds for one in steps)


def names(gear: Gear, one: Step) -> Iterator[str | Message]:
    return (tick_name(gear, one, tick) for tick in one.ticks)


def test_a_box_to_tick_shows_the_sticker_or_the_group() -> None:
    [gear], [alone] = gears(), gears(1)
    lock = next(iter(gear.edition.game.locks))
    stickers = [gear.sticker(group, lock) for group in "12"]
    assert list(names(gear, step(gear, "set", lock))) == stickers
    assert list(names(gear, step(gear, "lay-cards", ""))) == ["1", "2"]
    assert list(names(alone, step(alone, "lay-cards", ""))) == [""]
    assert list(names(gear, step(gear, "cut", ""))) == [""]


def test_help_with_a_lock_names_the_fault_that_the_kit_tells() -> None:
    [gear] = gears()
    faulty = [
        lock
        for lock in gear.edition.game.locks
        if any((make := gear.make(group, lock)) and make.faults for group in "12")
    ]
    assert faulty
    for lock in gear.edition.game.locks:
        said = " ".join(words(one) for one in helping(gear, lock))
        assert ("says your kit" in said) == (lock in faulty)


def test_help_with_a_padlock_says_whether_there_is_another_key() -> None:
    [gear] = gears()
    keyed = [id for id, lock in gear.edition.game.locks.items() if lock.mechanism == "key"]
    assert keyed
    for lock in gear.edition.game.locks:
        said = {one.id for one in helping(gear, lock)}
        assert bool(said & {"card.spare", "card.no-spare"}) == (lock in keyed)


def test_a_tray_holds_what_comes_off_and_no_envelope() -> None:
    [gear] = gears()
    for group in gear.edition.groups:
        found = list(tray(gear, group))
        locks = {one.id for one in found if one.sort == "lock"}
        all_locks = set(gear.edition.game.locks)
        paper = {id for id in all_locks if gear.envelope(group, id)}
        fast = {id for id in all_locks if gear.built_in(group, id)}
        assert paper
        assert fast
        assert locks == all_locks - paper - fast
        assert {one.id for one in found if one.sort == "item"} == set(gear.edition.game.items)
