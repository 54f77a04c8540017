"""What people type becomes one code, and a code has one written form."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.mechanisms import (
    MECHANISMS,
    Device,
    device_of,
    entry,
    parse_lock,
    read_code,
)
from boxwright.game.model import LockMake
from boxwright.messages import words
from boxwright.problems import Problem, Where

HERE = Where("kit.toml", ("locks", "N1", "code"))
W1 = "letter-wheels:BCDFGLMPSW,AEHILNORTU,AEILNORSTU,ACEKLNRSTU,DEHKLNSTY_"


def lock(short: str) -> Device:
    return device_of(parse_lock(short, HERE), HERE)


def written(device: Device, text: str) -> str:
    code = read_code(device, text, HERE)
    assert not isinstance(code, Problem), words(code.what)
    return entry(device).write(device, code)


@pytest.mark.parametrize(
    ("short", "typed", "form"),
    [
        ("number-wheels:3", "427", "427"),
        ("number-wheels:3", " 4 2 7 ", "427"),
        ("number-wheels:3", "4-2-7", "427"),
        ("number-wheels:3", "4 – 2 – 7", "427"),
        ("number-wheels:3", "4,2.7", "427"),
        ("number-wheels:3", "４２７", "427"),
        ("number-wheels:3", "٤٢٧", "427"),
        (W1, "frost", "FROST"),
        (W1, "F-r-o-s-t", "FROST"),
        (W1, "F R O S T", "FROST"),
        (W1, "ＦＲＯＳＴ", "FROST"),
        (W1, "colt", "COLT_"),
        (W1, "COLT_", "COLT_"),
        ("letter-wheels:ABCΔΩ,ΑΒΩΣ", "δς", "ΔΣ"),
        ("letter-wheels:ЖЗИ,АБВ", "жа", "ЖА"),
        ("letter-wheels:ÄÖÜ,ßST", "a\u0308ß", "Äẞ"),
        ("letter-wheels:5", "straße"[:4] + "e", "STRAE"),
        ("letter-wheels:4", "maß", "MASS"),
        ("colour-wheels:red,light blue,green:3", "Red, light blue GREEN", "red light-blue green"),
        ("colour-wheels:red,light blue,green:3", "r l g", "red light-blue green"),
        ("colour-wheels:red,light blue,green:3", "red-light-blue-green", "red light-blue green"),
        ("symbol-wheels:★●▲:2", "★▲", "★ ▲"),
        ("colour-wheels:red,blue,green:3", "rbg", "red blue green"),
        ("symbol-wheels:★●▲:2", "★ ▲", "★ ▲"),
        ("symbol-wheels:a,b,a b:2", "a b", "a b"),
        ("symbol-wheels:a,b,a b:2", "a-b a", "a-b a"),
        ("letter-wheels:FG,OA,GD,_X", "fog____", "FOG_"),
        ("symbol-wheels:☀☂:2", "☀️☂️", "☀ ☂"),
        ("direction:3", "up left up", "up left up"),
        ("direction:3", "Up, Left, Up", "up left up"),
        ("direction:4", "U L U R", "up left up right"),
        ("direction:4", "ulur", "up left up right"),
        ("direction:4", "U-L-U-R", "up left up right"),
        ("direction:3", "↑←↑", "up left up"),
        ("direction:3", "⬆️ ⬅️ ⬆️", "up left up"),
        ("direction:2:ways=8", "ul d", "up-left down"),
        ("direction:2:ways=8", "↖ ↓", "up-left down"),
        ("direction:2:ways=8", "left-up down", "up-left down"),
        ("direction:2:ways=8", "u l", "up left"),
        ("dial:40", "12-33-5", "12-33-5"),
        ("dial:40", "12 33 5", "12-33-5"),
        ("dial:40", "R12 L33 R05", "12-33-5"),
        ("dial:40", "12, then 33, then 5", "12-33-5"),
        ("keypad:4", "4 2 7 1", "4271"),
        ("keypad:4:keys=1234567890*#", "12#*", "12#*"),
        ("keypad:4:keys=1234abcd", "1a-2B", "1A2B"),
        ("keypad:2:keys=star,moon", "Moon, star", "moon star"),
        ("key:Y1,Y2", "y2", "Y2"),
        ("key", "", ""),
    ],
)
def test_hurried_typing_comes_out_in_one_form(short: str, typed: str, form: str) -> None:
    assert written(lock(short), typed) == form


@pytest.mark.parametrize(
    ("short", "typed", "code", "holds"),
    [
        ("number-wheels:3", "4x7", "mechanism.unreadable-digits", ["position 2", "x"]),
        ("number-wheels:3", "4\u041e7", "mechanism.unreadable-digits", ["cyrillic"]),
        ("number-wheels:3", "", "mechanism.empty", ["no code"]),
        ("number-wheels:3", "4277", "mechanism.wrong-length", ["4 symbols", "3 symbols"]),
        ("number-wheels:3:faces=012345", "427", "mechanism.cannot-show", ["position 3", "7", "0"]),
        (W1, "storm", "mechanism.cannot-show", ["STORM", "position 5", "no M"]),
        (W1, "frosty", "mechanism.wrong-length", ["6 symbols", "5 symbols"]),
        ("letter-wheels:5", "frog", "mechanism.no-blank", ["FROG", "4 letters", "wheel 5"]),
        ("letter-wheels:5", "fr?st", "mechanism.unreadable-letters", ["position 3", "?"]),
        ("letter-wheels:5", "___", "mechanism.empty", []),
        (
            "colour-wheels:red,blue:2",
            "red purple",
            "mechanism.unreadable-names",
            ["position 2", "purple", "red and blue"],
        ),
        ("direction:3", "up north", "mechanism.unreadable-moves", ["position 2", "north"]),
        ("direction:2", "up-left up-left", "mechanism.wrong-length", ["up left up left"]),
        ("direction:2", "↖ ↖", "mechanism.cannot-show", ["no up-left"]),
        ("direction:2:ways=8", "uldr", "mechanism.unreadable-moves", ["uldr"]),
        ("direction:1-2", "u u u", "mechanism.wrong-length", ["1 to 2"]),
        ("dial:40", "12-40-5", "mechanism.beyond-dial", ["number 2", "0 to 39"]),
        ("dial:40", "12-x-5", "mechanism.unreadable-numbers", ["position 2", "x"]),
        ("dial:40", "12335", "mechanism.wrong-length", ["1 symbol;"]),
        ("keypad:4", "12A4", "mechanism.unreadable-keys", ["position 3", "A"]),
        ("keypad:4:any-order", "1224", "mechanism.key-twice", ["presses 2 twice"]),
        ("key", "427", "mechanism.key-has-no-code", ["427"]),
        ("key:Y1,Y2", "Y3", "mechanism.unreadable-names", ["Y3"]),
    ],
)
def test_what_is_no_code_is_told_with_its_place(
    short: str, typed: str, code: str, holds: list[str]
) -> None:
    found = read_code(lock(short), typed, HERE)
    assert isinstance(found, Problem)
    assert found.code == code
    assert found.where == HERE
    said = words(found.what).lower()
    assert all(part.lower() in said for part in holds), said
    assert "mechanism." not in words(found.remedy)


@pytest.mark.parametrize(
    ("short", "typed", "near"),
    [
        ("number-wheels:3", "4277", ("427",)),
        ("number-wheels:3:faces=012345", "427", ("425", "424", "423")),
        ("direction:2", "up up left", ("up up",)),
        ("dial:40", "12-41-5", ("12-39-5", "12-38-5", "12-37-5")),
    ],
)
def test_the_remedy_names_codes_that_can_be_shown(
    short: str, typed: str, near: tuple[str, ...]
) -> None:
    device = lock(short)
    found = read_code(device, typed, HERE)
    assert isinstance(found, Problem)
    assert all(code in words(found.remedy) for code in near)
    assert all(written(device, code) == code for code in near)


FACES = st.lists(st.sampled_from("ABCDEFGHIJKLMNOPQRSTUVWXYZ"), min_size=2, max_size=8, unique=True)
NAMES = st.lists(
    st.from_regex(r"[a-c]{1,2}( [a-c]{1,2})?", fullmatch=True), min_size=2, max_size=6, unique=True
)


@st.composite
def shapes(draw: st.DrawFn) -> LockMake:
    """Any lock that a kit may describe, of every mechanism."""
    name = draw(st.sampled_from(sorted(MECHANISMS)))
    low = draw(st.integers(1, 5))
    high = low + draw(st.integers(0, 3))
    wheels = draw(st.integers(1, 6))
    digits = tuple(
        "".join(draw(st.permutations("0123456789"))[: draw(st.integers(2, 10))])
        for _ in range(wheels)
    )
    letters = tuple("".join(draw(FACES)) + draw(st.sampled_from(["", "_"])) for _ in range(wheels))
    named = {"wheels": wheels, "faces": tuple(draw(NAMES))}
    fields: dict[str, dict[str, object]] = {
        "number-wheels": draw(st.sampled_from([{"wheels": wheels}, {"faces": digits}])),
        "letter-wheels": draw(st.sampled_from([{"wheels": wheels}, {"faces": letters}])),
        "colour-wheels": named,
        "symbol-wheels": named,
        "direction": {"moves": draw(st.sampled_from([4, 8])), "length": (low, high)},
        "dial": {
            "numbers": draw(st.integers(12, 100)),
            "tolerance": draw(st.integers(0, 2)),
            "length": (low, low),
        },
        "keypad": {
            "keys": "".join(draw(st.permutations("1234567890AB"))[:9]),
            "length": (low, high),
            "order_matters": draw(st.booleans()),
        },
        "key": draw(st.sampled_from([{}, {"keys": ("Y1", "Y2", "Y3")}])),
    }
    return LockMake.model_validate({"mechanism": name} | fields[str(name)])


@settings(max_examples=60)
@given(shapes(), st.integers(0, 1 << 30))
def test_a_code_read_back_from_its_written_form_is_itself(shape: LockMake, seed: int) -> None:
    device = device_of(shape, HERE)
    mechanism = entry(device)
    dice = Dice(seed)
    length = dice.between(device.shortest, device.longest)
    code = mechanism.random_code(dice, device, length)
    if "letter" in device.mechanism and not mechanism.symbols(code):
        return
    form = mechanism.write(device, code)
    assert read_code(device, form, HERE) == code
    assert mechanism.possible(device, code)


@settings(max_examples=60)
@given(shapes(), st.text(max_size=20))
def test_any_text_gives_a_code_that_can_be_shown_or_a_problem(shape: LockMake, text: str) -> None:
    device = device_of(shape, HERE)
    found = read_code(device, text, HERE)
    if isinstance(found, Problem):
        assert "mechanism." not in words(found.what) + words(found.remedy)
    else:
        assert entry(device).possible(device, found)
        assert written(device, entry(device).write(device, found)) == entry(device).write(
            device, found
        )


@pytest.mark.parametrize(
    "short",
    [
        "number-wheels:3",
        "number-wheels:4",
        "letter-wheels:3",
        "letter-wheels:5",
        "letter-wheels:BDFL,AEIO,LNRT",
        "colour-wheels:red,blue,green:3",
        "direction:3",
        "direction:7",
        "dial:40",
        "keypad:4",
        "keypad:4:any-order",
    ],
)
def test_the_example_in_a_remedy_is_a_code_of_that_lock_and_no_weak_one(short: str) -> None:
    device = device_of(parse_lock(short, HERE), HERE)
    problem = entry(device).read(device, "§x", HERE)
    assert isinstance(problem, Problem)
    example = str(problem.remedy.args["example"])
    assert f"{example}." in words(problem.remedy)
    code = read_code(device, example, HERE)
    assert not isinstance(code, Problem)
    assert entry(device).weak(device, code) == ()
