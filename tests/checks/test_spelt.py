"""Codes are read out of a text in every way that people write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.checks.number_words import figures_of
from boxwright.checks.spelt import given_away
from boxwright.game.mechanisms import Device, device_of, parse_lock
from boxwright.problems import Where

UNITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]


def lock(short: str) -> Device:
    return device_of(parse_lock(short, Where("")), Where(""))


NUMBERS = lock("number-wheels:3")
COLOURS = lock("colour-wheels:red,blue,green:3")
DIAL = lock("dial:40")
EIGHT = lock("direction:3-6:ways=8")


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("four two seven", "427"),
        ("four twenty-seven", "427"),
        ("four hundred and twenty-seven", "427"),
        ("four hundred seven", "407"),
        ("four nought seven", "407"),
        ("nineteen eighty-four", "1984"),
        ("one thousand nine hundred and eighty-four", "1984"),
        ("two thousand and six", "2006"),
        ("forty two", "42"),
        ("fourteen", "14"),
        ("twenty zero", "200"),
        ("ninety ninety", "9090"),
        ("4 two 7", "427"),
    ],
)
def test_number_words_are_figures(text: str, figures: str) -> None:
    assert figures_of(text.replace("-", " ").split(), "en") == figures


@given(st.lists(st.integers(0, 9), min_size=3, max_size=6))
def test_digits_said_one_by_one_are_always_read(digits: list[int]) -> None:
    text = " ".join(UNITS[digit] for digit in digits)
    assert figures_of(text.split(), "en") == "".join(map(str, digits))


@given(st.integers(100, 999), st.sampled_from(["", " ", "-", ", ", ". ", " / "]))
def test_figures_are_read_through_whatever_parts_them(number: int, between: str) -> None:
    text = f"It says {between.join(str(number))} here."
    span = given_away(text, NUMBERS, tuple(str(number)), "en")
    assert span is not None
    assert [sign for sign in text[slice(*span)] if sign.isdecimal()] == list(str(number))


@given(st.integers(100, 999), st.integers(0, 9))
def test_figures_in_a_longer_row_are_not(number: int, more: int) -> None:
    for row in (f"{number}{more}", f"{more} " + " ".join(str(number))):
        assert given_away(row, NUMBERS, tuple(str(number)), "en") is None


def test_colours_count_in_a_row_only() -> None:
    code = ("red", "blue", "red")
    assert given_away("First red, blue, red.", COLOURS, code, "en")
    assert given_away("A red pot, a blue pot, a red pot.", COLOURS, code, "en") is None
    assert given_away("red, blue, red, green", COLOURS, code, "en") is None
    assert given_away("bored, blue, red", COLOURS, code, "en") is None


def test_a_dial_is_read_with_and_without_dashes() -> None:
    code = ("12", "33", "5")
    assert given_away("12-33-5", DIAL, code, "en")
    assert given_away("5, 33, 12", DIAL, code, "en")
    assert given_away("12335", DIAL, code, "en")
    assert given_away("12-33-15", DIAL, code, "en") is None


def test_diagonal_moves_are_one_move() -> None:
    code = ("up-left", "up", "right")
    assert given_away("up-left, up, right", EIGHT, code, "en")
    assert given_away("up, left, up, right", EIGHT, code, "en") is None


def test_two_symbols_cannot_be_told_from_chance() -> None:
    assert given_away("It is 42.", lock("number-wheels:2"), ("4", "2"), "en") is None
