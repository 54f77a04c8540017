"""How long guessing takes, held against walking through every search, and against chance."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.mechanisms import Code, Device, device_of, entry, guesses, parse_lock
from boxwright.game.mechanisms.guessing import (
    FEEL_S,
    Guess,
    Run,
    everything,
    felt,
    one_missing,
    order_unknown,
    searched,
)
from boxwright.game.mechanisms.orders import count_orders
from boxwright.problems import Where

HERE = Where("test")

SMALL = [
    "number-wheels:2",
    "letter-wheels:ABC,DE_",
    "direction:1-4",
    "direction:1-2:ways=8",
    "dial:10:tolerance=1:length=2",
    "dial:11:tolerance=2:length=2",
    "dial:8:tolerance=1",
    "keypad:2-3:keys=1234",
    "keypad:1-3:keys=12345:any-order",
    "keypad:3:keys=12345:tries=3:rest=60",
    "number-wheels:012,01:tries=1:rest=7",
    "dial:10:tolerance=1:length=2:tries=4:rest=30",
    "key:Y1,Y2,Y3",
    "key",
]


def lock(short: str) -> Device:
    made = parse_lock(short, HERE)
    return device_of(made, HERE)


def until_open(device: Device, code: Code, tries: list[Code]) -> tuple[int, Fraction]:
    """Walk through `tries` on a lock set to `code`, resting as it does."""
    mechanism = entry(device)
    clock = Fraction(0)
    for rank, tried in enumerate(tries, start=1):
        clock += mechanism.one_try_s(len(tried))
        if mechanism.same(device, code, tried):
            return rank, clock
        if device.rests and rank % device.wrong_tries == 0:
            clock += device.rest_s
    raise AssertionError(f"{code} is not found")


def walked(device: Device, codes: list[Code], tries: list[Code]) -> Guess:
    """Average and worst over all codes, by walking."""
    found = [until_open(device, code, tries) for code in codes]
    ranks, clocks = [rank for rank, _ in found], [clock for _, clock in found]
    return Guess(
        "nothing",
        max(ranks),
        Fraction(sum(ranks), len(codes)),
        max(clocks),
        sum(clocks, Fraction(0)) / len(codes),
    )


@pytest.mark.parametrize("short", SMALL)
def test_the_formula_is_what_walking_through_all_codes_gives(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    codes = list(mechanism.codes(device))
    assert everything(device) == walked(device, codes, list(mechanism.search(device)))


@pytest.mark.parametrize("short", SMALL)
def test_a_known_length_leaves_only_its_codes(short: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    for length in device.lengths:
        codes = list(mechanism.codes(device, length))
        tries = list(mechanism.search(device, length))
        assert everything(device, length=length) == walked(device, codes, tries)


@pytest.mark.parametrize(
    ("short", "code", "position"),
    [
        ("number-wheels:012,01,0123", "111", 1),
        ("letter-wheels:ABC,DE_", "BE", 0),
        ("direction:4", "up up left down", 2),
        ("keypad:3:keys=12345", "122", 0),
        ("keypad:3:keys=12345:tries=2:rest=9", "122", 0),
    ],
)
def test_one_missing_symbol_is_what_trying_that_place_takes(
    short: str, code: str, position: int
) -> None:
    device = lock(short)
    mechanism = entry(device)
    known = mechanism.read(device, code, HERE)
    assert isinstance(known, tuple)
    tries = [
        (*known[:position], face, *known[position + 1 :]) for face in device.positions[position]
    ]
    found = one_missing(device, length=len(known), position=position)
    want = walked(device, tries, tries)
    assert (found.tries, found.average_tries) == (want.tries, want.average_tries)
    assert (found.worst_s, found.average_s) == (want.worst_s, want.average_s)


def test_a_missing_key_is_none_of_the_known_ones_where_each_counts_once() -> None:
    assert one_missing(lock("keypad:4:any-order")).tries == 7


def test_a_missing_dial_number_takes_its_steps() -> None:
    assert one_missing(lock("dial:40:tolerance=1")).tries == 14


CODES = [
    ("number-wheels:4", "4271"),
    ("number-wheels:4", "4477"),
    ("number-wheels:3", "444"),
    ("number-wheels:012,01,0123", "012"),
    ("letter-wheels:ABC,BC_,C_A", "CB_"),
    ("direction:5", "up up left down left"),
    ("keypad:4", "1223"),
    ("keypad:3:any-order", "123"),
    ("dial:40:tolerance=1", "12-13-33"),
    ("dial:40:tolerance=1", "12-14-13"),
    ("dial:40", "12-13-33"),
]


@pytest.mark.parametrize(("short", "text"), CODES)
def test_an_unknown_order_takes_its_different_orders_and_no_more(short: str, text: str) -> None:
    device = lock(short)
    mechanism = entry(device)
    code = mechanism.read(device, text, HERE)
    assert isinstance(code, tuple)
    orders = sorted(o for o in set(permutations(code)) if mechanism.possible(device, o))
    if device.mechanism == "dial":
        orders.sort(key=lambda order: [int(number) for number in order])
    tries: list[Code] = []
    for order in orders:
        if not any(mechanism.same(device, order, tried) for tried in tries):
            tries.append(order)
    found, want = order_unknown(device, code), walked(device, orders, tries)
    assert (found.tries, found.average_tries) == (want.tries, want.average_tries)


@given(st.lists(st.sets(st.sampled_from("ABC_"), min_size=1), min_size=1, max_size=5), st.data())
def test_orders_are_counted_as_enumerated(wheels: list[set[str]], data: st.DataObject) -> None:
    device = Device("letter-wheels", tuple(tuple(sorted(faces)) for faces in wheels), len(wheels))
    code = tuple(data.draw(st.sampled_from(faces)) for faces in device.positions)
    mechanism = entry(device)
    orders = {order for order in permutations(code) if mechanism.possible(device, order)}
    assert count_orders(device, code) == len(orders)


RUNS = st.lists(
    st.builds(
        Run,
        st.integers(1, 12),
        st.integers(1, 4),
        st.fractions(0, 5, max_denominator=10),
    ),
    min_size=1,
    max_size=4,
)


@given(RUNS, st.integers(0, 5), st.integers(0, 90))
def test_stretches_add_up_with_rests_as_a_clock_does(
    runs: list[Run], wrong_tries: int, rest_s: int
) -> None:
    ranks: list[tuple[int, Fraction, int]] = []
    clock, rank = Fraction(0), 0
    for run in runs:
        for _ in range(run.tries):
            rank += 1
            clock += run.seconds
            ranks.append((rank, clock, run.opens))
            if wrong_tries and rank % wrong_tries == 0:
                clock += rest_s
    codes = sum(opens for _, _, opens in ranks)
    found = searched("nothing", runs, wrong_tries, rest_s)
    assert found.tries == rank
    assert found.worst_s == ranks[-1][1]
    assert found.average_tries == Fraction(sum(r * o for r, _, o in ranks), codes)
    assert found.average_s == sum((c * o for _, c, o in ranks), Fraction(0)) / codes


def test_felt_wheels_take_what_each_takes_alone() -> None:
    device = lock("number-wheels:012,01,0123:cheap=yes")
    combos = [(a, b, c) for a in range(1, 4) for b in range(1, 3) for c in range(1, 5)]
    found = felt(device)
    assert found.tries == max(map(sum, combos))
    assert found.average_tries == Fraction(sum(map(sum, combos)), len(combos))
    assert found.average_s == found.average_tries * FEEL_S


def test_measured_seconds_replace_the_assumed_ones() -> None:
    found = everything(lock("number-wheels:3"), try_s=Fraction(2))
    assert found.average_s == 1001


def test_what_is_asked_depends_on_lock_and_code() -> None:
    plain, cheap = lock("number-wheels:3"), lock("number-wheels:3:cheap=yes")
    assert [g.known for g in guesses(plain)] == ["nothing", "all-but-one"]
    assert [g.known for g in guesses(cheap, code=tuple("427"))] == [
        "nothing",
        "all-but-one",
        "symbols",
        "felt",
    ]
    assert [g.known for g in guesses(lock("key"))] == ["nothing"]
    assert "felt" not in {g.known for g in guesses(lock("keypad:4:cheap=yes"))}


@pytest.mark.parametrize(
    "short",
    ["number-wheels:3", "dial:12:tolerance=1", "keypad:3:keys=1234567:any-order:tries=3:rest=45"],
)
def test_chance_agrees_with_the_formula(short: str) -> None:
    """A seeded simulation of 1,000 locks; the average must lie within four standard errors."""
    device = lock(short)
    mechanism = entry(device)
    dice = Dice(f"guess {short}")
    tries = list(mechanism.search(device))
    runs = 1_000
    times = []
    for _ in range(runs):
        code = mechanism.random_code(dice, device, device.longest)
        rank = next(k for k, tried in enumerate(tries, 1) if mechanism.same(device, code, tried))
        rests = (rank - 1) // device.wrong_tries if device.rests else 0
        times.append(float(rank * mechanism.one_try_s(device.longest)) + rests * device.rest_s)
    mean = sum(times) / runs
    error = (sum((time - mean) ** 2 for time in times) / (runs - 1) / runs) ** 0.5
    assert abs(mean - float(everything(device).average_s)) < 4 * error
