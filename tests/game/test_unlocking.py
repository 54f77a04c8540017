"""Unlocking: what comes when, and what can never come because it waits for itself."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from boxwright.game.unlocking import Way, circles, waves

NAMES = st.sampled_from("abcdefgh")
WAYS = st.lists(st.builds(Way, NAMES, st.frozensets(NAMES, max_size=3)), max_size=12)


def way(thing: str, needs: str = "") -> Way:
    return Way(thing, frozenset(needs))


def test_things_come_in_waves() -> None:
    assert waves([way("a"), way("c", "ab"), way("b", "a"), way("d")]) == (
        ("a", "d"),
        ("b",),
        ("c",),
    )


def test_one_of_two_ways_is_enough() -> None:
    assert waves([way("a", "x"), way("a", "b"), way("b")]) == (("b",), ("a",))


def test_a_key_inside_the_box_that_it_opens_is_a_ring() -> None:
    ways = [way("box", "k"), way("k", "l"), way("l", "m"), way("m", "k"), way("free")]
    assert circles(ways) == (("k", "l", "m"),)


def test_what_merely_waits_for_a_ring_is_not_in_it() -> None:
    assert circles([way("a", "a"), way("b", "a"), way("c", "b")]) == (("a",),)


def test_a_thing_with_no_way_at_all_is_no_ring() -> None:
    assert circles([way("a", "b")]) == ()
    assert waves([way("a", "b")]) == ()


def test_two_separate_rings_are_both_told() -> None:
    assert circles([way("a", "b"), way("b", "a"), way("c", "d"), way("d", "c")]) == (
        ("a", "b"),
        ("c", "d"),
    )


@given(WAYS)
def test_waves_agree_with_the_plain_definition(ways: list[Way]) -> None:
    had: set[str] = set()
    while new := {w.thing for w in ways if w.needs <= had} - had:
        had |= new
    assert {thing for wave in waves(ways) for thing in wave} == had


@given(WAYS)
def test_whatever_cannot_be_had_leads_to_a_ring_or_to_a_thing_without_a_way(
    ways: list[Way],
) -> None:
    had = {thing for wave in waves(ways) for thing in wave}
    known = {w.thing for w in ways}
    stuck = known - had
    dead_ends = {need for w in ways for need in w.needs} - known
    if stuck and not dead_ends:
        assert circles(ways)


@given(WAYS)
def test_every_step_of_a_ring_is_a_real_wait(ways: list[Way]) -> None:
    for ring in circles(ways):
        for thing, need in zip(ring, (*ring[1:], ring[0]), strict=True):
            assert any(w.thing == thing and need in w.needs for w in ways)
