"""What is said of a code that somebody types for a lock in their hand."""

from __future__ import annotations

from typing import Any

import pytest

from boxwright.choose.codes import words_for
from boxwright.choose.verdict import Verdict, verdict
from boxwright.game.mechanisms import Device, device_of
from boxwright.game.model import LockMake
from boxwright.messages import words
from boxwright.problems import Problem, Where

HERE = Where("code")


def lock(**said: Any) -> Device:
    return device_of(LockMake.model_validate(said), Where("lock"))


def never() -> None:
    pytest.fail("words were looked up for a code that needs none")


def test_a_sound_code_comes_with_how_long_guessing_takes() -> None:
    found = verdict(lock(mechanism="number-wheels", wheels=3), "4 2 7", HERE, never)
    assert isinstance(found, Verdict)
    assert (found.written, found.weak, found.also, found.guess.tries) == ("427", (), (), 1000)


def test_a_weak_code_is_told_why() -> None:
    found = verdict(lock(mechanism="number-wheels", wheels=3), "111", HERE, never)
    assert isinstance(found, Verdict)
    assert [one.id for one in found.weak] == ["mechanism.weak-same"]


def test_what_else_opens_a_dial_that_forgives_is_told() -> None:
    found = verdict(lock(mechanism="dial", tolerance=1), "12-33-5", HERE, never)
    assert isinstance(found, Verdict)
    assert "11-33-5" in found.also or "13-33-5" in found.also


def test_the_wheel_that_lacks_a_letter_is_named_with_words_that_are_near() -> None:
    wheels = lock(mechanism="letter-wheels", faces=("BDFL", "AEIO", "GMNT"))
    found = verdict(wheels, "COG", HERE, lambda: words_for(wheels, "en"))
    assert isinstance(found, Problem)
    assert found.what.args["position"] == 1
    assert found.what.args["face"] == "C"
    assert "DOG" in words(found.remedy)
