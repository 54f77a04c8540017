"""Each mechanism is one entry in one file; the short form reaches them all."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest

import boxwright.game.mechanisms as package
from boxwright.game.mechanisms import MECHANISMS, device_of, entry, parse_lock
from boxwright.game.mechanisms.short import EXAMPLES
from boxwright.game.model import LockShape, MechanismName
from boxwright.messages import words
from boxwright.problems import Refused, Where

HERE = Where("LOCK")


def test_the_entries_are_the_mechanisms_that_files_may_name() -> None:
    assert tuple(MECHANISMS) == get_args(MechanismName)
    assert all(MECHANISMS[name].name == name for name in MECHANISMS)


def test_every_field_that_an_entry_knows_is_one_of_a_lock() -> None:
    for mechanism in MECHANISMS.values():
        assert mechanism.fields <= set(LockShape.model_fields) - {"mechanism"}


def test_no_file_asks_which_mechanism_it_is() -> None:
    """What is special stands in the entry, never behind a comparison of names."""
    for file in Path(package.__file__).parent.glob("*.py"):
        text = file.read_text("utf-8")
        for name in get_args(MechanismName):
            assert f'== "{name}"' not in text, file.name


@pytest.mark.parametrize("name", get_args(MechanismName))
def test_each_has_an_example_of_its_short_form(name: str) -> None:
    device = device_of(parse_lock(EXAMPLES[name], HERE), HERE)
    assert device.mechanism == name
    assert entry(device) is MECHANISMS[name]


@pytest.mark.parametrize(
    ("short", "fields"),
    [
        ("number-wheels:4", {"wheels": 4}),
        ("number-wheels:012,34", {"faces": ("012", "34")}),
        ("number-wheels:3:faces=012345", {"wheels": 3, "faces": "012345"}),
        ("Number-Wheels : 4", {"wheels": 4}),
        ("letter-wheels:ABC,DEF", {"faces": ("ABC", "DEF")}),
        ("colour-wheels:red,blue:3", {"faces": ("red", "blue"), "wheels": 3}),
        ("direction", {}),
        ("direction:4", {"length": (4, 4)}),
        ("direction:3-6:ways=8", {"length": (3, 6), "moves": 8}),
        ("dial:40:tolerance=1", {"numbers": 40, "tolerance": 1}),
        ("keypad:4:any-order", {"length": (4, 4), "order_matters": False}),
        ("keypad:4:order=no:keys=ABCD", {"length": (4, 4), "order_matters": False, "keys": "ABCD"}),
        ("number-wheels:3:cheap=yes", {"wheels": 3, "cheap": True}),
        ("keypad:tries=3:rest=60", {"wrong_tries": 3, "rest_s": 60}),
    ],
)
def test_a_short_form_says_what_a_file_would(short: str, fields: dict[str, object]) -> None:
    made = parse_lock(short, HERE)
    said = {name: getattr(made, name) for name in made.model_fields_set - {"mechanism"}}
    assert said == fields


@pytest.mark.parametrize(
    ("short", "code", "holds"),
    [
        ("nubmer-wheels:3", "unknown", "number-wheels"),
        ("", "unknown", "dial"),
        ("dial:x", "short-part", "dial:40"),
        ("dial:40:colour=red", "short-part", "tolerance"),
        ("dial:40:tolerance=much", "short-part", "tolerance=much"),
        ("number-wheels:wheels=99", "short-range", "1 to 10"),
        ("number-wheels:12", "short-range", "“12”"),
        ("number-wheels:0", "short-range", "number-wheels:3"),
        ("number-wheels:x", "short-part", "“x”"),
        ("number-wheels:-3", "short-part", "“-3”"),
        ("number-wheels:3:4", "short-twice", "“4”"),
        ("number-wheels:3:wheels=4", "short-twice", "wheels=4"),
        ("number-wheels:3:tolerance=1", "short-part", "tolerance=1"),
        ("letters:4", "unknown", "letter-wheels:5"),
        ("letter-wheels:12", "short-range", "1 to 10"),
        ("dial:500", "short-range", "2 to 200"),
        ("direction:1-2-3", "short-part", "1-2-3"),
        ("direction:4:ways=5", "short-part", "ways=5"),
        ("keypad:²", "short-part", "²"),
    ],
)
def test_a_slip_in_a_short_form_is_told_with_an_example(short: str, code: str, holds: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_lock(short, HERE)
    (problem,) = caught.value.problems
    assert problem.code == f"mechanism.{code}"
    assert holds in words(problem.what) + words(problem.remedy)


def test_a_blank_is_explained_where_the_code_has_one() -> None:
    device = device_of(parse_lock("letter-wheels:4:ABCDE_", HERE), HERE)
    for code, told in ((tuple("BEAD"), False), (tuple("BED_"), True)):
        said = " ".join(map(words, entry(device).setting(device, code)))
        assert ("is the blank" in said) is told
