"""How long it takes to try out a lock when it is known which codes its clue can lead to.

A clue for moves shows pupils what its codes look like (a map never goes on in the line of
the last leg), so only codes that its kind does not refuse count there.
"""

from __future__ import annotations

from itertools import product

from boxwright.checks import About
from boxwright.choose.answers import answer_of
from boxwright.choose.asking import Asking, drawn_on
from boxwright.choose.codes import can_have
from boxwright.choose.edition import Edition
from boxwright.content.tables import Content
from boxwright.game.mechanisms import Device, Guess, entry, guesses
from boxwright.game.mechanisms.guessing import Run, searched

LOOKED_AT = 512
"""As many codes as are put to a kind one by one; for longer codes, growth is taken to go on."""


def known_guesses(edition: Edition, about: About, lock: str) -> tuple[Guess, ...]:
    """Return what a lock with a drawn code withstands; nothing where it cannot have its code.

    First, as ever, trying all codes of its length; for a direction lock, all that its clue
    can lead to.
    """
    device, code = about.device(lock), edition.codes[lock]
    if device.fixed is not None or not can_have(device, code):
        return ()  # another check's business
    if device.mechanism == "direction":
        return (led_to(edition, about, lock, len(code)),)
    return guesses(device, code=code)


def led_to(edition: Edition, about: About, lock: str, length: int) -> Guess:
    """Return how long trying takes for codes of `length` that a clue for `lock` can lead to."""
    return about.once(edition, _led_to, lock, length)


def _led_to(edition: Edition, about: About, lock: str, length: int) -> Guess:
    device = about.device(lock)
    counts = (_count(one, device, length) for one in about.once(edition, askings, lock))
    count = max(counts, default=0)
    runs = [Run(max(count, 1), 1, entry(device).one_try_s(length))]
    return searched("nothing", runs, device.wrong_tries if device.rests else 0, device.rest_s)


def askings(edition: Edition, about: About, lock: str) -> list[Asking]:
    """Return the clues that lead to a lock, each about to be made."""
    found = []
    for id, clue in edition.game.clues.items():
        if clue.gives != lock:
            continue
        content = drawn_on(about.folder, clue)
        if isinstance(content, Content):
            found.append(Asking(about.folder, edition.game, id, content))
    return found


def _count(asking: Asking, device: Device, length: int) -> int:
    """Count the codes of `length` that a clue can lead to, or reckon it from shorter ones.

    A rule about neighbours makes the number grow by one ratio with each symbol more.
    """
    nominal = entry(device).nominal
    exact = length
    while exact > 1 and nominal(device, exact) > LOOKED_AT:
        exact -= 1
    counts = [_carried(asking, device, size) for size in (exact - 1, exact)]
    if exact == length:
        return counts[1]
    ratio = counts[1] / counts[0] if all(counts) else len(device.faces)
    return round((counts[1] or nominal(device, exact)) * ratio ** (length - exact))


def _carried(asking: Asking, device: Device, length: int) -> int:
    answers = (answer_of(device, code) for code in product(device.faces, repeat=length))
    refuse, options, given = asking.kind.refuse, asking.options, asking.given
    return sum(one is not None and refuse(one, options, given) is None for one in answers)
