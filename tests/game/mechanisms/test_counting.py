"""What a lock tells apart, held against going through all its codes."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.mechanisms import Code, Device, device_of, entry, parse_lock
from boxwright.problems import Where

HERE = Where("test")

SMALL = [
    "number-wheels:2",
    "number-wheels:012,01,0123",
    "letter-wheels:ABC,DE_",
    "colour-wheels:red,blue:3",
    "symbol-wheels:star,moon,sun:2",
    "direction:1-4",
    "direction:2:ways=8",
    "dial:10:length=2",
    "dial:10:tolerance=1:length=2",
    "dial:9:tolerance=1:length=2",
    "dial:11:tolerance=2:length=2",
    "dial:8:tolerance=1",
    "keypad:2-3:keys=1234",
    "keypad:1-3:keys=12345:any-order",
    "keypad:3:keys=123456:any-order",
    "key:Y1,Y2,Y3",
    "key",
]


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


def first_opened(device: Device) -> list[int]:
    """How many codes each try of the search opens that no earlier one did: by brute force."""
    mechanism = entry(device)
    left = set(mechanism.codes(device))
    opened = []
    for tried in mechanism.search(device):
        hit = {code for code in left if mechanism.same(device, code, tried)}
        opened.append(len(hit))
        left -= hit
    assert not left
    return opened


@pytest.mark.parametrize("short", SMALL)
def test_codes_are_distinct_possible_and_as_many_as_counted(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    codes = list(mechanism.codes(device))
    assert len(codes) == len(set(codes)) == mechanism.nominal(device)
    assert all(mechanism.possible(device, code) for code in codes)


@pytest.mark.parametrize("short", SMALL)
def test_the_search_opens_every_code_and_no_try_is_idle(short: str) -> None:
    device = lock(short)
    opened = first_opened(device)
    tries = list(entry(device).search(device))
    assert 0 not in opened
    assert len(tries) == len(set(tries)) == len(opened)
    assert all(entry(device).in_search(device, code) for code in tries)


@pytest.mark.parametrize("short", SMALL)
def test_the_counted_stretches_are_those_of_the_search(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    counted = [
        (opens, symbols) for tries, opens, symbols in mechanism.runs(device) for _ in range(tries)
    ]
    tries = list(mechanism.search(device))
    assert [symbols for _, symbols in counted] == [len(code) for code in tries]
    assert [opens for opens, _ in counted] == first_opened(device)


@pytest.mark.parametrize("short", SMALL)
def test_what_is_told_apart_never_shares_a_try(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    codes = list(mechanism.codes(device))
    apart: list[Code] = []
    taken: set[Code] = set()
    for code in codes:
        openers = {tried for tried in codes if mechanism.same(device, tried, code)}
        if not openers & taken:
            apart.append(code)
            taken |= openers
    assert len(apart) == mechanism.told_apart(device)


@pytest.mark.parametrize("short", SMALL)
def test_opening_each_other_goes_both_ways_and_neighbours_do(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    codes = list(mechanism.codes(device))[:300]
    for a, b in combinations(codes, 2):
        assert mechanism.same(device, a, b) == mechanism.same(device, b, a)
    for code in codes[::17]:
        near = list(mechanism.neighbours(device, code))
        same = {other for other in mechanism.codes(device) if mechanism.same(device, code, other)}
        assert set(near) == same - {code}
        assert len(near) == len(set(near))


def test_cheap_wheels_may_open_one_step_beside() -> None:
    device = lock("number-wheels:3:cheap=yes")
    near = {"".join(code) for code in entry(device).neighbours(device, tuple("907"))}
    assert near == {"807", "007", "917", "997", "906", "908"}


def test_a_wheel_of_two_faces_has_one_neighbour() -> None:
    device = lock("colour-wheels:red,blue:2:cheap=yes")
    near = list(entry(device).neighbours(device, ("red", "red")))
    assert near == [("blue", "red"), ("red", "blue")]


@given(st.integers(2, 40), st.integers(0, 3), st.integers(1, 3))
def test_a_dial_is_searched_in_steps_of_its_tolerance(
    marks: int, tolerance: int, length: int
) -> None:
    step = 2 * tolerance + 1
    if step >= marks:
        return
    device = lock(f"dial:{marks}:tolerance={tolerance}:length={length}")
    runs = entry(device).runs(device)
    assert sum(tries for tries, _, _ in runs) == (-(-marks // step)) ** length
    assert sum(tries * opens for tries, opens, _ in runs) == marks**length
    assert entry(device).told_apart(device) == (marks // step) ** length
    assert Fraction(marks, step) ** length <= sum(tries for tries, _, _ in runs)
