"""From a lock's code, or the place of a thing, to what a sheet must lead to."""

from __future__ import annotations

from typing import Any

from boxwright.game.mechanisms import Code, Device, entry
from boxwright.puzzles.contract import Answer


def answer_of(device: Device, code: Code) -> Answer | None:
    """Return what a sheet must lead to for `code`; None for a lock that has no code."""
    mechanism = entry(device)
    alphabet: Any = mechanism.alphabet(device)
    return None if alphabet is None else Answer(alphabet, mechanism.symbols(code))


def answer_of_word(word: str) -> Answer:
    """Return what a sheet must lead to for a place that is spelled `word`."""
    return Answer("text", tuple(word.upper()))
