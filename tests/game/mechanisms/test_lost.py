"""The list to search for a lost code: likely slips first, nothing twice, nothing left out."""

from __future__ import annotations

from collections import Counter
from itertools import islice

import pytest

from boxwright.game.mechanisms import Code, Device, device_of, entry, parse_lock, stages, suspects
from boxwright.messages import words
from boxwright.problems import Where

HERE = Where("test")


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


def code_of(device: Device, text: str) -> Code:
    code = entry(device).read(device, text, HERE)
    assert isinstance(code, tuple)
    return code


SMALL = [
    ("number-wheels:3", "427"),
    ("number-wheels:2", "44"),
    ("number-wheels:012,01,0123", "013"),
    ("letter-wheels:ABC,DE_,FG", "BEF"),
    ("colour-wheels:red,blue:3", "red red blue"),
    ("direction:1-4", "up left up"),
    ("direction:3", "up left up"),
    ("direction:2:ways=8", "up-left down"),
    ("dial:12:length=2", "0-11"),
    ("dial:14:tolerance=1:length=2", "0-7"),
    ("dial:13:tolerance=2:length=2", "3-7"),
    ("keypad:3:keys=12345", "122"),
    ("keypad:2-3:keys=1234567890", "12"),
    ("keypad:3:any-order", "152"),
    ("key:Y1,Y2,Y3", "Y2"),
]


def test_what_it_was_set_to_before_comes_second_and_is_counted_once() -> None:
    device = lock("number-wheels:3")
    earlier = [tuple("500"), tuple("427"), tuple("428"), tuple("500")]
    listed = list(suspects(device, tuple("427"), earlier))
    assert [("".join(s.code), s.stage) for s in listed[:3]] == [
        ("427", "meant"), ("500", "earlier"), ("428", "earlier")
    ]  # fmt: skip
    assert len({s.code for s in listed}) == len(listed) == 1000
    counted = {one.stage: one.tries for one in stages(device, tuple("427"), earlier)}
    assert counted == Counter(s.stage for s in listed)


@pytest.mark.parametrize(("short", "meant"), SMALL)
def test_the_list_holds_nothing_twice_and_opens_whatever_it_is_set_to(
    short: str, meant: str
) -> None:
    device = lock(short)
    mechanism = entry(device)
    listed = [suspect.code for suspect in suspects(device, code_of(device, meant))]
    assert listed[0] == code_of(device, meant)
    assert len({mechanism.key(device, code) for code in listed}) == len(listed)
    assert all(mechanism.possible(device, code) for code in listed)
    for code in mechanism.codes(device):
        assert any(mechanism.same(device, code, tried) for tried in listed)


@pytest.mark.parametrize(("short", "meant"), SMALL)
def test_the_stages_are_counted_as_they_are_listed_and_timed(short: str, meant: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    code = code_of(device, meant)
    listed = list(suspects(device, code))
    counted = stages(device, code)
    assert Counter({s.stage: s.tries for s in counted}) == Counter(s.stage for s in listed)
    assert [s.stage for s in counted] == list(dict.fromkeys(s.stage for s in listed))
    assert counted[-1].until_s == sum(mechanism.one_try_s(len(s.code)) for s in listed)
    assert not any("mechanism.lost" in words(s.says) for s in counted)


def test_a_wheel_that_slipped_comes_before_a_wheel_that_is_anywhere() -> None:
    device = lock("number-wheels:3")
    found = list(islice(suspects(device, tuple("907")), 28))
    assert {"".join(s.code) for s in found[1:7]} == {"807", "007", "917", "997", "906", "908"}
    assert {s.stage for s in found[1:7]} == {"slipped"}
    assert {s.stage for s in found[7:]} == {"one-off"}
    assert all(sum(a != b for a, b in zip(s.code, "907", strict=True)) == 1 for s in found[1:])


def test_the_wrong_line_and_other_orders_come_before_the_rest() -> None:
    device = lock("number-wheels:3")
    by_stage: dict[str, list[str]] = {}
    for suspect in suspects(device, tuple("427")):
        by_stage.setdefault(suspect.stage, []).append("".join(suspect.code))
    assert by_stage["wrong-line"] == ["538", "316"]
    assert set(by_stage["order"]) == {"472", "247", "274", "742", "724"}
    assert len(by_stage["two-slipped"]) == 12


def test_a_direction_lock_lost_a_move_gained_one_or_swapped_two() -> None:
    device = lock("direction:1-12")
    by_stage: dict[str, list[str]] = {}
    for suspect in islice(suspects(device, code_of(device, "up left down")), 60):
        by_stage.setdefault(suspect.stage, []).append(" ".join(suspect.code))
    assert len(by_stage["one-off"]) == 9
    assert by_stage["missing"] == ["left down", "up down", "up left"]
    assert "up up left down" in by_stage["extra"]
    assert len(by_stage["extra"]) == 4 * 4 - 3
    assert by_stage["swapped"] == ["left up down", "up down left"]


def test_the_rest_of_a_lock_of_any_length_begins_at_the_length_meant() -> None:
    device = lock("direction:1-12")
    rest = (s for s in suspects(device, code_of(device, "up left down")) if s.stage == "rest")
    assert {len(s.code) for s in islice(rest, 40)} == {3}


def test_a_dial_is_tried_beyond_what_its_tolerance_forgives() -> None:
    exact, forgiving = lock("dial:40"), lock("dial:40:tolerance=1")
    off = [s.code[0] for s in suspects(exact, ("12", "33", "5")) if s.stage == "marks-off"]
    assert {"11", "13", "10", "14"} <= set(off)
    off = [s.code[0] for s in suspects(forgiving, ("12", "33", "5")) if s.stage == "marks-off"]
    assert set(off) == {"10", "14", "12"}


def test_a_key_slips_to_its_neighbour_on_the_pad_first() -> None:
    device = lock("keypad:4")
    first = [s.code[0] for s in suspects(device, tuple("5271")) if s.stage == "one-off"]
    assert set(first[:4]) == {"2", "4", "6", "8"}


def test_rests_count_in_the_time_until_a_stage_is_done() -> None:
    device = lock("keypad:4:tries=3:rest=60")
    plain = {s.stage: s for s in stages(lock("keypad:4"), tuple("4271"))}
    for stage, tries in zip(stages(device, tuple("4271")), (1, 4), strict=False):
        rests = (tries - 1) // 3
        assert stage.until_s == plain[stage.stage].until_s + 60 * rests
