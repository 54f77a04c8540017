"""Source: elementary counting; (N + 1) / 2 tries without repeats, see each test.

Brute force without repeats needs (N + 1) / 2 tries on average: 1,000 codes 500.5, 10,000
codes 5,000.5; at 1.2 s a try a lock of three number wheels falls in 10.01 minutes.
Elementary; no publication is cited. Counts are checked by going through all settings.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import islice, product
from math import comb, perm

import pytest

from boxwright.game.mechanisms import Device, device_of, entry, parse_lock, suspects
from boxwright.game.mechanisms.guessing import everything
from boxwright.problems import Where

HERE = Where("references")


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


@pytest.mark.parametrize(
    ("wheels", "codes", "average"), [(3, 1_000, Fraction(1001, 2)), (4, 10_000, Fraction(10001, 2))]
)
def test_without_repeats_half_the_codes_and_a_half_are_tried(
    wheels: int, codes: int, average: Fraction
) -> None:
    found = everything(lock(f"number-wheels:{wheels}"))
    assert (found.tries, found.average_tries) == (codes, average)


def test_three_number_wheels_fall_in_ten_minutes_at_1_2_seconds_a_try() -> None:
    found = everything(lock("number-wheels:3"), try_s=Fraction("1.2"))
    assert found.average_s / 60 == Fraction("10.01")


def test_a_dial_of_forty_with_one_mark_of_tolerance_tells_13_cubed_apart() -> None:
    device = lock("dial:40:tolerance=1")
    assert entry(device).nominal(device) == 64_000
    assert entry(device).told_apart(device) == 13**3 == 2_197


def test_14_cubed_settings_open_that_dial_whatever_it_is_set_to() -> None:
    """Every one of the 64,000 settings is marked by the tries that open it."""
    device = lock("dial:40:tolerance=1")
    tries = list(entry(device).search(device))
    assert len(tries) == 14**3 == 2_744
    opened = set()
    for tried in tries:
        rings = [[(int(number) + by) % 40 for by in (-1, 0, 1)] for number in tried]
        opened |= set(product(*rings))
    assert len(opened) == 64_000


def test_13_steps_for_a_number_would_leave_a_setting_shut() -> None:
    """13 tries of one number open at most 39 of 40 marks, so rows of numbers need 14 each."""
    device = lock("dial:40:tolerance=1:length=1")
    assert sum(tries for tries, _, _ in entry(device).runs(device)) == 14
    assert 13 * 3 < 40 <= 14 * 3


def test_no_set_of_tries_opens_that_dial_with_fewer_than_2494() -> None:
    """Each layer of settings with one first number needs a cover; a try meets three layers."""
    least = 1
    for _ in range(3):
        least = -(-40 * least // 3)
    assert least == 2_494 <= 14**3


def test_a_keypad_that_heeds_neither_order_nor_repeats_has_210_codes_of_four() -> None:
    device = lock("keypad:4:any-order")
    assert entry(device).told_apart(device) == comb(10, 4) == 210
    assert entry(device).nominal(device) == perm(10, 4) == 5_040


def test_a_direction_lock_of_up_to_three_moves_has_the_sum_of_the_powers_of_four() -> None:
    device = lock("direction:1-3")
    assert entry(device).nominal(device) == 4 + 16 + 64


@pytest.mark.parametrize(("wheels", "codes"), [(3, 27), (4, 36)])
def test_one_wheel_off_is_nine_codes_a_wheel(wheels: int, codes: int) -> None:
    meant = tuple("4271"[:wheels])
    listed = list(islice(suspects(lock(f"number-wheels:{wheels}"), meant), 1, codes + 2))
    off = [sum(a != b for a, b in zip(s.code, meant, strict=True)) for s in listed]
    assert off[:codes] == [1] * codes
    assert off[codes] > 1
