"""Whether one lock can show a code that a person types, and how good a code it is."""

from __future__ import annotations

from collections.abc import Callable
from itertools import islice

from boxwright.frozen import frozen_value
from boxwright.game.mechanisms import Code, Device, entry, read_code
from boxwright.game.mechanisms.guessing import Guess, everything
from boxwright.game.spelling import WordIndex
from boxwright.problems import Message, Problem, Where

NEIGHBOURS = 12

Words = Callable[[], WordIndex | None]
"""Gives the words that letter wheels look among for near ones; asked only where needed."""


@frozen_value
class Verdict:
    """A code that a lock can show: why it is weak, what else may open the lock, and guessing.

    `more`: whether other codes still may open it besides those that are named.
    """

    code: Code
    written: str
    weak: tuple[Message, ...]
    also: tuple[str, ...]
    more: bool
    guess: Guess


def read_wish(device: Device, text: str, where: Where, words: Words) -> Code | Problem:
    """Read a code as people type it, or say why `device` cannot show it and what it could."""
    found = read_code(device, text, where)
    if isinstance(found, Problem) and entry(device).alphabet(device) == "letters":
        return read_code(device, text, where, words())
    return found


def verdict(device: Device, text: str, where: Where, words: Words) -> Verdict | Problem:
    """Return what is to be said of a code that a person types for `device`."""
    code = read_wish(device, text, where, words)
    return code if isinstance(code, Problem) else of_code(device, code)


def of_code(device: Device, code: Code) -> Verdict:
    """Return what is to be said of a code that `device` can show."""
    mechanism = entry(device)
    others = list(islice(mechanism.neighbours(device, code), NEIGHBOURS + 1))
    return Verdict(
        code=code,
        written=mechanism.write(device, code),
        weak=mechanism.weak(device, code),
        also=tuple(mechanism.write(device, other) for other in others[:NEIGHBOURS]),
        more=len(others) > NEIGHBOURS,
        guess=everything(device, length=len(code)),
    )
