"""Reasons why a code is easily guessed or easily mistaken, as tests of a code.

Common practice, no source: what people try first, and what they misread.
"""

from __future__ import annotations

from itertools import pairwise

from boxwright.game.mechanisms.device import BLANK, Code, Device
from boxwright.game.wordlists import unsuitable

PHONE_KEYS = "123456789 0"
"""The usual keys, row by row of three; 0 stands in the middle of the last row."""


def all_same(_: Device, code: Code) -> bool:
    """One symbol throughout: 111."""
    return len(code) > 1 and len(set(code)) == 1


def twice(_: Device, code: Code) -> bool:
    """The second half repeats the first: 1212, up down up down."""
    half = len(code) // 2
    return half > 1 and len(code) % 2 == 0 and code[:half] == code[half:]


def run(device: Device, code: Code) -> bool:
    """Neighbours on the wheel or in the alphabet, up or down: 123, 321, 890, CBA."""
    if len(code) < 3:
        return False
    steps = {_step(device.positions[0], a, b) for a, b in pairwise(code)}
    return steps in ({1}, {-1})


def _step(faces: tuple[str, ...], a: str, b: str) -> int:
    """Return 1 or -1 where `b` follows or precedes `a`, else 0; figures go round, letters not."""
    if a.isalpha() and len(a) == len(b) == 1:
        return step if abs(step := ord(b) - ord(a)) == 1 else 0
    if a not in faces or b not in faces:
        return 0
    forward = (faces.index(b) - faces.index(a)) % len(faces)
    return {1: 1, len(faces) - 1: -1}.get(forward, 0)


def year(_: Device, code: Code) -> bool:
    """Four digits that look like a year: 19.. or 20.."""
    return len(code) == 4 and "".join(code[:2]) in ("19", "20")


def leading_nought(_: Device, code: Code) -> bool:
    """A nought in front is lost when it is written as a number: 042."""
    return len(code) > 1 and code[0] == "0"


def sorted_run(device: Device, code: Code) -> bool:
    """Neighbouring keys, where order does not matter: 2413."""
    if device.order_matters:
        return False
    faces = device.faces
    return run(device, tuple(sorted(code, key=faces.index)))


def straight(_: Device, code: Code) -> bool:
    """A straight line over the usual keys: 147, 2580, 159."""
    if len(code) < 3 or not all(len(key) == 1 and key in PHONE_KEYS for key in code):
        return False
    spots = [divmod(PHONE_KEYS.index(key), 3) for key in code]
    steps = {(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(spots)}
    return len(steps) == 1 and steps != {(0, 0)}


def too_close(device: Device, code: Code) -> bool:
    """A dial number too near the next one: turning past it is easily missed."""
    marks = len(device.positions[0])
    least = 2 * device.tolerance + 1
    gaps = [abs(int(a) - int(b)) for a, b in pairwise(code)]
    return any(min(gap, marks - gap) < least for gap in gaps)


def even_steps(device: Device, code: Code) -> bool:
    """Dial numbers at equal steps: 10-20-30."""
    marks = len(device.positions[0])
    steps = {(int(b) - int(a)) % marks for a, b in pairwise(code)}
    return len(code) > 2 and len(steps) == 1


def rests_on_nought(_: Device, code: Code) -> bool:
    """A first number of 0: the dial stands there already."""
    return code[:1] == ("0",)


def gap(_: Device, code: Code) -> bool:
    """A blank before the last letter: nobody would look for it."""
    return BLANK in "".join(code).rstrip(BLANK)


def unsuitable_word(_: Device, code: Code) -> bool:
    """A word that no lock may show."""
    return "".join(code).strip(BLANK) in unsuitable()
