"""Dice: the same for good, fair, and independent of one another."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxwright.dice import Dice


def test_golden_values_never_change() -> None:
    # Sheets printed last year must come out again: these values are a promise.
    dice = Dice(7)
    assert [dice.below(10) for _ in range(12)] == [3, 9, 5, 8, 9, 7, 1, 8, 3, 6, 8, 0]
    assert Dice(7).child("a", 1).sample("abcdef", 3) == ["b", "e", "a"]


def test_a_draw_follows_from_sha_256_by_hand() -> None:
    import hashlib

    key = hashlib.sha256(b"int:7").digest()
    block = hashlib.sha256(key + bytes(8)).digest()
    assert Dice(7).below(1 << 64) == int.from_bytes(block[:8], "big")


def test_a_child_is_not_disturbed_by_draws_of_its_parent() -> None:
    parent = Dice("seed")
    before = parent.child("clue").below(1 << 60)
    parent.below(6)
    assert parent.child("clue").below(1 << 60) == before


def test_children_of_names_that_run_together_differ() -> None:
    dice = Dice(1)
    assert dice.child("ab", "c").below(1 << 60) != dice.child("a", "bc").below(1 << 60)


def test_seeds_of_different_types_differ() -> None:
    assert Dice(7).below(1 << 60) != Dice("7").below(1 << 60)


def test_six_sides_come_up_evenly() -> None:
    dice = Dice("fair")
    counts = Counter(dice.below(6) for _ in range(60_000))
    # Chi-square with 5 degrees of freedom, 99.9 % point 20.515 (NIST/SEMATECH
    # e-Handbook of Statistical Methods, table 1.3.6.7.4).
    assert sum((n - 10_000) ** 2 / 10_000 for n in counts.values()) < 20.515


@pytest.mark.parametrize("bound", [0, -1, (1 << 64) + 1])
def test_an_impossible_bound_is_refused(bound: int) -> None:
    with pytest.raises(ValueError, match="bound"):
        Dice(1).below(bound)


@given(st.integers(), st.integers(1, 1 << 64))
def test_below_stays_below(seed: int, bound: int) -> None:
    assert 0 <= Dice(seed).below(bound) < bound


@given(st.text(), st.lists(st.integers(), max_size=30))
def test_shuffled_loses_and_invents_nothing(seed: str, items: list[int]) -> None:
    assert Counter(Dice(seed).shuffled(items)) == Counter(items)


@given(st.integers(), st.integers(0, 12))
def test_a_sample_has_no_repeats(seed: int, count: int) -> None:
    assert len(set(Dice(seed).sample(range(12), count))) == count


def test_a_sample_larger_than_its_population_is_refused() -> None:
    with pytest.raises(ValueError, match="3 of 2"):
        Dice(1).sample([1, 2], 3)
