"""Drawn codes can be shown, are sound, and are what the dice say."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.mechanisms import Device, device_of, entry, parse_lock
from boxwright.game.model import KitLock
from boxwright.game.spelling import WordIndex
from boxwright.messages import words
from boxwright.problems import Where

HERE = Where("test")

LOCKS = [
    "number-wheels:3",
    "number-wheels:4",
    "number-wheels:012,012,012",
    "letter-wheels:BCDFGLMPSW,AEHILNORTU,AEILNORSTU,ACEKLNRSTU,DEHKLNSTY_",
    "letter-wheels:4",
    "colour-wheels:red,blue,green:3",
    "colour-wheels:red,blue:2",
    "symbol-wheels:star,moon:3",
    "direction",
    "direction:3",
    "direction:2-3:ways=8",
    "dial:40:tolerance=1",
    "dial:20:tolerance=2:length=2",
    "keypad:4",
    "keypad:4:any-order",
    "keypad:3-5:keys=ABCDEF",
    "key",
    "key:Y1,Y2",
]


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


@pytest.mark.parametrize("short", LOCKS)
@given(seed=st.integers(0, 1 << 40))
def test_a_drawn_code_can_be_shown_and_is_sound(short: str, seed: int) -> None:
    device = lock(short)
    mechanism = entry(device)
    code = mechanism.draw(Dice(seed), device)
    assert code is not None
    assert mechanism.shows(device, code, HERE) is None
    assert mechanism.weak(device, code) == ()
    assert code == mechanism.draw(Dice(seed), device)


def test_what_is_not_accepted_is_not_drawn() -> None:
    device = lock("number-wheels:3")
    code = entry(device).draw(Dice(1), device, lambda code: code == tuple("427"))
    assert code == tuple("427")


def test_a_small_lock_is_searched_to_the_end_before_it_gives_up() -> None:
    device = lock("number-wheels:2")
    assert entry(device).draw(Dice(1), device, lambda _: False) is None


def test_every_sound_code_of_a_small_lock_is_drawn_about_as_often() -> None:
    device = lock("colour-wheels:red,blue,green:2")
    drawn = Counter(entry(device).draw(Dice(seed), device) for seed in range(1_200))
    assert len(drawn) == 6
    assert all(140 <= count <= 260 for count in drawn.values())


def test_a_fixed_lock_gives_its_only_code_though_it_is_weak() -> None:
    device = device_of(KitLock(mechanism="number-wheels", fixed=True, code="111"), HERE)
    assert entry(device).draw(Dice(1), device) == tuple("111")
    assert entry(device).draw(Dice(1), device, lambda _: False) is None


def test_the_code_of_the_shelf_is_never_drawn() -> None:
    lock = KitLock(mechanism="colour-wheels", faces=("red", "blue"), wheels=2, shelf_code="r b")
    device = device_of(lock, HERE)
    drawn = {entry(device).draw(Dice(seed), device) for seed in range(40)}
    assert drawn == {("blue", "red")}


def test_drawn_letters_hold_no_blank_and_no_unsuitable_word() -> None:
    device = lock("letter-wheels:AS_,SA_,S_A")
    drawn = {"".join(entry(device).draw(Dice(seed), device) or ()) for seed in range(60)}
    assert drawn <= {"SAS", "SSA", "ASA", "AAS", "SAA"}
    assert "ASS" not in drawn


def test_a_word_is_drawn_where_words_are_given_and_letters_where_none_will_do() -> None:
    device = lock(LOCKS[3])
    index = WordIndex(("STORM", "FROST", "CLASS", "PLANT"), 5)
    draw = entry(device).draw
    drawn = {"".join(draw(Dice(seed), device, words=index) or ()) for seed in range(40)}
    assert drawn == {"FROST", "CLASS", "PLANT"}
    none = WordIndex(("STORM",), 5)
    assert draw(Dice(1), device, words=none) == draw(Dice(1), device)


WEAK = [
    ("number-wheels:3", "111", "same"),
    ("number-wheels:3", "123", "run"),
    ("number-wheels:3", "321", "run"),
    ("number-wheels:3", "890", "run"),
    ("number-wheels:3", "109", "run"),
    ("number-wheels:4", "1212", "twice"),
    ("number-wheels:4", "1987", "year"),
    ("number-wheels:4", "2031", "year"),
    ("number-wheels:3", "042", "nought"),
    ("letter-wheels:3", "abc", "run"),
    ("letter-wheels:FG_,OG_,G_", "F_G", "gap"),
    ("direction:4", "up up up up", "same"),
    ("direction:4", "up down up down", "twice"),
    ("dial:40:tolerance=1", "12-14-30", "close"),
    ("dial:40", "12-12-30", "close"),
    ("dial:40", "10-20-30", "even"),
    ("dial:40", "35-5-15", "even"),
    ("dial:40", "0-20-7", "resting"),
    ("keypad:4", "2580", "line"),
    ("keypad:3", "159", "line"),
    ("keypad:4:any-order", "2413", "run"),
    ("colour-wheels:red,blue,green:3", "red blue green", "run"),
]


@pytest.mark.parametrize(("short", "text", "reason"), WEAK)
def test_a_weak_code_is_told_with_its_reason(short: str, text: str, reason: str) -> None:
    device = lock(short)
    code = entry(device).read(device, text, HERE)
    assert isinstance(code, tuple)
    found = entry(device).weak(device, code)
    assert f"mechanism.weak-{reason}" in {message.id for message in found}
    assert not any(words(message).startswith("mechanism.") for message in found)


@pytest.mark.parametrize(
    ("short", "text"),
    [
        ("number-wheels:3", "427"),
        ("number-wheels:3", "112"),
        ("number-wheels:4", "1221"),
        ("number-wheels:4", "4190"),
        ("number-wheels:3", "402"),
        ("letter-wheels:5", "FROST"),
        ("direction:4", "up left up right"),
        ("dial:40:tolerance=1", "12-33-5"),
        ("keypad:4", "4271"),
        ("keypad:4", "2413"),
    ],
)
def test_an_ordinary_code_is_not_called_weak(short: str, text: str) -> None:
    device = lock(short)
    code = entry(device).read(device, text, HERE)
    assert isinstance(code, tuple)
    assert entry(device).weak(device, code) == ()
