"""What hands must do: every step is said, and pupils never hear a code."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import boxwright.game.mechanisms as package
from boxwright.dice import Dice
from boxwright.game.mechanisms import Device, device_of, entry, parse_lock
from boxwright.game.model import KitLock, LockMake
from boxwright.messages import words
from boxwright.problems import Message, Where

HERE = Where("test")
LOCKS = [
    "number-wheels:3",
    "letter-wheels:5",
    "letter-wheels:ABK_,CDZ_,QXV_",
    "colour-wheels:red,blue,green:3",
    "symbol-wheels:star,moon,sun:3:cheap=yes",
    "direction:5",
    "direction:5:ways=8",
    "dial:40:tolerance=1",
    "keypad:4:tries=3:rest=60",
    "keypad:4:any-order",
    "key",
    "key:Y1,Y2",
]


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


def told(device: Device) -> list[Message]:
    mechanism = entry(device)
    code = mechanism.draw(Dice(3), device) or ()
    return [
        *mechanism.setting(device, code, LockMake(set_needs=("pin", "key", "screwdriver"))),
        *mechanism.testing(device, code),
        mechanism.scrambling(device),
        *mechanism.opening(device),
        *mechanism.opening(device, "between the two dots"),
        *mechanism.failures(device),
    ]


@pytest.mark.parametrize("short", LOCKS)
def test_every_step_has_words_with_all_blanks_filled(short: str) -> None:
    for message in told(lock(short)):
        said = words(message)
        assert not said.startswith("mechanism."), said
        assert "{" not in said


@pytest.mark.parametrize("short", LOCKS)
def test_what_pupils_are_told_does_not_depend_on_the_code(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    said = " ".join(words(message) for message in mechanism.opening(device))
    for seed in range(20):
        code = mechanism.draw(Dice(seed), device)
        if code and len(code) > 1:
            assert mechanism.write(device, code).lower() not in said.lower()


def test_a_lock_is_set_the_way_the_kit_tells() -> None:
    device = lock("letter-wheels:5")
    make = LockMake(
        set_by="turn the shackle half round and press",
        set_needs=("pin",),
        reading_line="between the two dots",
    )
    said = " ".join(words(m) for m in entry(device).setting(device, tuple("FROST"), make))
    assert "the pin" in said
    assert "turn the shackle half round and press" in said
    assert "FROST" in said
    assert "between the two dots" in said


def test_pupils_hear_where_to_read() -> None:
    said = [words(m) for m in entry("letter-wheels").opening(lock("letter-wheels:5"), "the dots")]
    assert any("the dots" in step for step in said)


@pytest.mark.parametrize("short", ["letter-wheels:5", "letter-wheels:ABK_,CDZ_,QXV_"])
def test_letters_on_wheels_need_be_no_word(short: str) -> None:
    said = " ".join(words(m) for m in entry("letter-wheels").opening(lock(short)))
    assert "letters" in said
    assert "word" not in said


def test_a_direction_lock_is_cleared_first() -> None:
    said = [words(m) for m in entry("direction").opening(lock("direction:5"))]
    assert any("Press the shackle in twice before you begin" in step for step in said)


def test_a_dial_turns_right_left_right() -> None:
    said = [words(m) for m in entry("dial").opening(lock("dial:40"))]
    turns = [step.split()[1] for step in said if re.match(r"Turn (right|left)", step)]
    assert [turn.strip(",") for turn in turns] == ["right", "left", "right"]


def test_a_keypad_that_rests_says_how_long() -> None:
    said = " ".join(words(m) for m in entry("keypad").opening(lock("keypad:4:tries=3:rest=60")))
    assert "3 wrong tries" in said
    assert "60 seconds" in said


def test_a_fixed_lock_is_not_set() -> None:
    fixed = KitLock(mechanism="dial", fixed=True, code="12-33-5")
    device = device_of(fixed, HERE)
    (step,) = entry(device).setting(device, ("12", "33", "5"), fixed)
    assert "cannot be set" in words(step)


def test_a_key_that_stays_in_an_open_lock_is_mentioned() -> None:
    device = lock("key")
    steps = entry(device).setting(device, (), LockMake(mechanism="key", keeps_key_open=True))
    assert any("keeps its key" in words(step) for step in steps)


def test_the_catalogue_says_what_the_code_asks_for_and_nothing_else() -> None:
    """Ids that stand whole in the code must be said; an id said must be asked for somewhere."""
    folder = Path(package.__file__).parent
    source = "\n".join(file.read_text("utf-8") for file in sorted(folder.glob("*.py")))
    locale = folder.parent.parent / "locale" / "en" / "LC_MESSAGES" / "mechanism.po"
    said = set(re.findall(r'^msgid "(mechanism\.[\w-]+)"', locale.read_text("utf-8"), re.M))
    asked = set(re.findall(r'"(mechanism\.[\w-]+)"', source))
    assert asked <= said
    stems = ("weak-", "guess-", "lost-", "open-", "set-", "tool-", "name-", "unreadable-")
    built = set(re.findall(r'draft\.wrong\(\s*"([\w-]+)"', source))
    for id in said - asked:
        tail = id.removeprefix("mechanism.")
        assert tail in built or tail.startswith(stems), id
