"""A lock of a file becomes a device, or each contradiction is told at its own field."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.mechanisms import (
    MECHANISMS,
    Device,
    device_of,
    entry,
    merged,
    parse_lock,
    read_code,
)
from boxwright.game.model import KitLock, LockMake, LockWish
from boxwright.messages import words
from boxwright.problems import Path, Problem, Refused, Where

LOCK = Where("kit.toml", ("locks", "N1"))
MODEL = Where("kit.toml", ("models", "plain"))


def kit_lock(**fields: Any) -> KitLock:
    return KitLock.model_validate(fields)


def test_number_wheels_are_three_with_ten_figures_unless_told() -> None:
    device = device_of(kit_lock(mechanism="number-wheels"), LOCK)
    assert device.positions == (tuple("0123456789"),) * 3


def test_letter_wheels_have_the_alphabet_unless_told() -> None:
    device = device_of(kit_lock(mechanism="letter-wheels", wheels=4), LOCK)
    assert [len(faces) for faces in device.positions] == [26] * 4


def test_a_string_of_faces_stands_for_every_wheel() -> None:
    device = device_of(kit_lock(mechanism="number-wheels", wheels=4, faces="012345"), LOCK)
    assert device.positions == (tuple("012345"),) * 4


def test_a_list_of_strings_gives_each_wheel_its_own_faces_and_counts_the_wheels() -> None:
    device = device_of(kit_lock(mechanism="letter-wheels", faces=("abc", "DE_")), LOCK)
    assert device.positions == (("A", "B", "C"), ("D", "E", "_"))


def test_a_list_of_names_stands_for_every_wheel_of_colours() -> None:
    lock = kit_lock(mechanism="colour-wheels", wheels=2, faces=("Red", "light  blue"))
    assert device_of(lock, LOCK).positions == (("red", "light-blue"),) * 2


def test_lists_of_names_give_each_wheel_of_signs_its_own() -> None:
    faces = (("star", "moon"), ("sun", "bell", "oar"))
    device = device_of(kit_lock(mechanism="symbol-wheels", faces=faces), LOCK)
    assert device.positions == faces


def test_direction_has_four_ways_and_any_length_or_eight_and_its_own() -> None:
    plain = device_of(kit_lock(mechanism="direction"), LOCK)
    slanted = device_of(kit_lock(mechanism="direction", moves=8, length=(2, 3)), LOCK)
    assert (len(plain.faces), plain.lengths) == (4, range(1, 13))
    assert (len(slanted.faces), slanted.lengths) == (8, range(2, 4))


def test_a_dial_has_forty_marks_and_three_numbers_unless_told() -> None:
    device = device_of(kit_lock(mechanism="dial"), LOCK)
    assert (device.positions[0][-1], device.longest, device.tolerance) == ("39", 3, 0)


@pytest.mark.parametrize(
    ("fields", "code", "path", "holds"),
    [
        ({}, "none", (), "letter-wheels"),
        ({"mechanism": "letter-wheels"}, "no-wheels", (), "how many wheels"),
        ({"mechanism": "letter-wheels", "faces": "ABC"}, "no-wheels", ("faces",), "how many"),
        ({"mechanism": "colour-wheels", "wheels": 3}, "no-faces", (), "colour wheels"),
        (
            {"mechanism": "number-wheels", "wheels": 4, "faces": ("012", "345")},
            "wheels-differ",
            ("faces",),
            "4 wheels, but gives the faces of 2",
        ),
        (
            {"mechanism": "letter-wheels", "faces": ("ABC", "ABCA")},
            "repeated-face",
            ("faces", 1),
            "A",
        ),
        (
            {"mechanism": "letter-wheels", "faces": ("abA", "BC")},
            "repeated-face",
            ("faces", 0),
            "A",
        ),
        (
            {"mechanism": "letter-wheels", "faces": ("ABC", "D")},
            "few-faces",
            ("faces", 1),
            "1 face",
        ),
        (
            {"mechanism": "letter-wheels", "faces": ("ABC", "")},
            "few-faces",
            ("faces", 1),
            "0 faces",
        ),
        ({"mechanism": "number-wheels", "faces": "01A"}, "bad-face", ("faces",), "“A”"),
        ({"mechanism": "letter-wheels", "faces": ("AB", "C?")}, "bad-face", ("faces", 1), "“?”"),
        ({"mechanism": "direction", "length": (5, 3)}, "length-reversed", ("length",), "5"),
        ({"mechanism": "dial", "length": (2, 3)}, "length-ranged", ("length",), "2 to 3"),
        (
            {"mechanism": "dial", "numbers": 9, "tolerance": 4},
            "tolerance-wide",
            ("tolerance",),
            "4",
        ),
        (
            {"mechanism": "keypad", "keys": "123", "length": (4, 4), "order_matters": False},
            "length-keys",
            ("length",),
            "4",
        ),
        ({"mechanism": "keypad", "keys": "1231"}, "repeated-face", ("keys",), "1"),
        ({"mechanism": "number-wheels", "numbers": 40}, "field", ("numbers",), "numbers"),
        ({"mechanism": "dial", "wheels": 3}, "field", ("wheels",), "wheels"),
        ({"mechanism": "key", "length": (1, 2)}, "field", ("length",), "length"),
        ({"mechanism": "dial", "fixed": True}, "fixed-unknown", ("code",), "not written"),
        ({"mechanism": "dial", "code": "1-2-3"}, "code-unfixed", ("code",), "1-2-3"),
        ({"mechanism": "dial", "fixed": True, "code": "1-99-3"}, "beyond-dial", ("code",), "99"),
        ({"mechanism": "number-wheels", "shelf_code": "11"}, "wrong-length", ("shelf_code",), "11"),
    ],
)
def test_a_shape_that_cannot_be_is_told_at_its_field(
    fields: dict[str, Any], code: str, path: Path, holds: str
) -> None:
    with pytest.raises(Refused) as caught:
        device_of(kit_lock(**fields), LOCK)
    (problem,) = caught.value.problems
    assert problem.code == f"mechanism.{code}"
    assert problem.where == Where("kit.toml", ("locks", "N1", *path))
    assert holds in words(problem.what) + words(problem.remedy)
    assert not re.search(r"mechanism\.\w", words(problem.what) + words(problem.remedy))


def test_all_faults_of_one_lock_come_together() -> None:
    lock = kit_lock(mechanism="number-wheels", wheels=3, numbers=4, faces=("012", "0011", "5"))
    with pytest.raises(Refused) as caught:
        device_of(lock, LOCK)
    codes = [problem.code for problem in caught.value.problems]
    assert codes == ["mechanism.field", "mechanism.repeated-face", "mechanism.few-faces"]


def test_what_a_lock_says_goes_before_its_model() -> None:
    model = LockMake(mechanism="number-wheels", wheels=3, set_by="a lever", cheap=True)
    lock = merged(model, KitLock(model="plain", wheels=4))
    assert (lock.mechanism, lock.wheels, lock.set_by, lock.cheap) == (
        "number-wheels",
        4,
        "a lever",
        True,
    )


def test_the_mechanism_may_come_from_the_model() -> None:
    model = LockMake(mechanism="letter-wheels", set_needs=("pin",))
    lock = KitLock(model="plain", faces=("AB", "CD"))
    assert device_of(lock, LOCK, model=model, model_where=MODEL).longest == 2
    assert merged(model, lock).set_needs == ("pin",)


def test_a_fault_of_the_model_is_told_at_the_model() -> None:
    model = LockMake(mechanism="dial", length=(3, 2))
    lock = KitLock(model="plain", numbers=50, tolerance=0, faces="AB")
    with pytest.raises(Refused) as caught:
        device_of(lock, LOCK, model=model, model_where=MODEL)
    places = {problem.code: problem.where.path for problem in caught.value.problems}
    assert places["mechanism.length-reversed"] == ("models", "plain", "length")
    assert places["mechanism.field"] == ("locks", "N1", "faces")


def test_a_fixed_lock_shows_its_code_and_no_other() -> None:
    lock = kit_lock(mechanism="dial", tolerance=1, fixed=True, code="12 33 5")
    device = device_of(lock, LOCK)
    assert device.fixed == ("12", "33", "5")
    assert read_code(device, "12-33-5", LOCK) == device.fixed
    assert read_code(device, "13-33-5", LOCK) == ("13", "33", "5")
    other = read_code(device, "20-33-5", LOCK)
    assert isinstance(other, Problem)
    assert other.code == "mechanism.fixed"


def test_a_wish_of_a_game_becomes_a_device_too() -> None:
    wish = LockWish(mechanism="keypad", length=(4, 4), closes="safe", code="auto")
    assert device_of(wish, Where("game.toml", ("locks", "hatch"))).longest == 4


SIGNS = st.text(st.sampled_from("AaBbÄß019_-★☀\ufe0f\u0301 "), max_size=5)
FACES = st.one_of(
    st.none(),
    SIGNS,
    st.lists(SIGNS, max_size=4).map(tuple),
    st.lists(st.lists(SIGNS, max_size=3).map(tuple), max_size=3).map(tuple),
)
ANY_SHAPE = st.fixed_dictionaries(
    {"mechanism": st.sampled_from(sorted(MECHANISMS))},
    optional={
        "wheels": st.integers(1, 5),
        "faces": FACES,
        "length": st.tuples(st.integers(1, 5), st.integers(1, 5)),
        "moves": st.sampled_from([4, 8]),
        "numbers": st.integers(2, 200),
        "tolerance": st.integers(0, 5),
        "keys": st.one_of(SIGNS, st.lists(SIGNS, max_size=4).map(tuple)),
        "order_matters": st.booleans(),
        "cheap": st.booleans(),
        "shelf_code": st.text(max_size=6),
        "fixed": st.booleans(),
        "code": st.text(max_size=6),
    },
)


def whole(device: Device) -> bool:
    """Whether a device is one that all else can build on."""
    return all(
        len(faces) >= 2 and len(set(faces)) == len(faces) and all(faces)
        for faces in device.positions
    )


@given(ANY_SHAPE)
def test_any_shape_is_a_whole_device_or_is_refused_in_words(fields: dict[str, Any]) -> None:
    try:
        device = device_of(kit_lock(**fields), LOCK)
    except Refused as refused:
        for problem in refused.problems:
            said = words(problem.what) + words(problem.remedy)
            assert not re.search(r"mechanism\.\w", said), said
    else:
        assert whole(device) or device.mechanism == "key"
        codes = [code for _, code in zip(range(20), entry(device).codes(device), strict=False)]
        for code in codes:
            written = entry(device).write(device, code)
            assert entry(device).key(device, code) == code or not device.order_matters
            assert set(written) <= {"_"} or entry(device).read(device, written, LOCK) == code


@given(st.text(st.sampled_from("numberwhlskypadirctio-:,=39_ABab²"), max_size=25))
def test_any_short_form_is_a_lock_or_is_refused_in_words(text: str) -> None:
    for start in ("", "keypad:", "dial:", "direction:", "letter-wheels:", "colour-wheels:"):
        try:
            device_of(parse_lock(start + text, LOCK), LOCK)
        except Refused as refused:
            for problem in refused.problems:
                said = words(problem.what) + words(problem.remedy)
                assert not re.search(r"mechanism\.\w", said), said
