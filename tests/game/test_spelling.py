"""The words that wheels can show, held against looking at each word."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from boxwright.dice import Dice
from boxwright.game.mechanisms import BLANK, Device, device_of, entry, parse_lock, read_code
from boxwright.game.spelling import WordIndex
from boxwright.messages import words as said
from boxwright.problems import Problem, Where

HERE = Where("test")
WEATHER = ("FROST", "STORM", "CLOUD", "COLD", "FOG", "SLEET", "GALE", "WIND", "SUN", "HEAT")
W1 = device_of(
    parse_lock("letter-wheels:BCDFGLMPSW,AEHILNORTU,AEILNORSTU,ACEKLNRSTU,DEHKLNSTY_", HERE), HERE
)


def plainly(words: list[str], device: Device, shortest: int = 3) -> list[str]:
    """Look at each word by itself."""
    fitting = []
    for word in words:
        padded = word.ljust(device.longest, BLANK)
        long_enough = min(shortest, device.longest) <= len(word) <= device.longest
        if long_enough and all(
            letter in faces for letter, faces in zip(padded, device.positions, strict=True)
        ):
            fitting.append(word)
    return fitting


LETTERS = "ABCDE"
WHEELS = st.lists(
    st.sets(st.sampled_from(LETTERS + BLANK), min_size=1).map(lambda s: tuple(sorted(s))),
    min_size=1,
    max_size=5,
)


@given(st.lists(st.text(LETTERS, min_size=1, max_size=6), unique=True, max_size=60), WHEELS)
def test_the_index_finds_what_looking_at_each_word_finds(
    words: list[str], wheels: list[tuple[str, ...]]
) -> None:
    device = Device("letter-wheels", tuple(wheels), len(wheels))
    index = WordIndex(words, device.longest)
    assert list(index.shown(device)) == plainly(words, device)
    assert index.count(device) == len(plainly(words, device))


def test_a_short_word_needs_the_blank_behind_it() -> None:
    blank_twice = Device("letter-wheels", (*W1.positions[:3], ("D", "_"), ("S", "_")), 5)
    assert list(WordIndex(("COD", "COLD", "COLDS", "FOE"), 5).shown(W1)) == []
    assert list(WordIndex(("FOE", "FEED", "FEEDS"), 5).shown(blank_twice)) == [
        "FOE",
        "FEED",
        "FEEDS",
    ]


def test_words_that_differ_least_come_first_then_the_commoner() -> None:
    index = WordIndex(("STORE", "SCARE", "START", "STORY"), 5)
    assert index.near(W1, "STORM") == ("STORE", "STORY", "START")


def test_the_remedy_for_a_word_that_does_not_fit_names_near_words() -> None:
    index = WordIndex(("STORE", "STORY", "FROST"), 5)
    found = read_code(W1, "storm", HERE, index)
    assert isinstance(found, Problem)
    assert "STORE, STORY or FROST" in said(found.remedy)


def test_a_word_is_drawn_that_can_be_shown_and_is_accepted() -> None:
    index = WordIndex(WEATHER, 5)
    drawn = {index.draw(Dice(seed), W1, lambda code: code[0] != "F") for seed in range(60)}
    shown = {"".join(code or ()).rstrip(BLANK) for code in drawn}
    assert shown == {word for word in plainly(list(WEATHER), W1) if word[0] != "F"}
    assert all(code and entry(W1).shows(W1, code, HERE) is None for code in drawn)


def test_nothing_is_drawn_where_no_word_fits() -> None:
    assert WordIndex(("STORM",), 5).draw(Dice(1), W1) is None
