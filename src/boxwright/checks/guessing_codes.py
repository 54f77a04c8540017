"""How long it takes to try out a lock when it is known which codes its clue can lead to.

A clue for moves shows pupils what its codes look like (a map never goes on in the line of
the last leg), so only codes that its kind does not refuse count there.
"""

from __future__ import annotations

from boxwright.checks import About
from boxwright.choose.answers import answer_of
from boxwright.choose.asking import Asking
from boxwright.choose.codes import can_have
from boxwright.choose.edition import Edition
from boxwright.content.read import content_of
from boxwright.content.tables import Content
from boxwright.dice import Dice
from boxwright.game.mechanisms import Code, Device, Guess, entry, guesses
from boxwright.game.mechanisms.guessing import Run, searched

LOOKED_AT = 256
"""So many codes are put to a kind; where there are more, the rest is reckoned from them."""


def known_guesses(edition: Edition, about: About, lock: str) -> tuple[Guess, ...]:
    """Return what a lock with a drawn code withstands; nothing where it cannot have its code.

    First, as ever, trying all codes of its length.
    """
    device, code = about.device(lock), edition.codes[lock]
    if device.fixed is not None or not can_have(device, code):
        return ()  # another check's business
    first, *others = guesses(device, code=code)
    if device.mechanism == "direction":
        first = _led_to(edition, about, lock, first)
    return (first, *others)


def _led_to(edition: Edition, about: About, lock: str, whole: Guess) -> Guess:
    device, code = about.device(lock), edition.codes[lock]
    share = max(_shares(edition, about, lock), default=1.0)
    count = max(1, round(entry(device).nominal(device, len(code)) * share))
    runs = [Run(count, 1, entry(device).one_try_s(len(code)))]
    rests = device.wrong_tries if device.rests else 0
    return searched(whole.known, runs, rests, device.rest_s)


def _shares(edition: Edition, about: About, lock: str) -> list[float]:
    """Return which share of a lock's codes each of its clues can lead to."""
    device, code = about.device(lock), edition.codes[lock]
    codes = _some_codes(device, len(code))
    shares = []
    for id, clue in edition.game.clues.items():
        content = content_of(about.folder, clue)
        if clue.gives == lock and isinstance(content, Content):
            asking = Asking(about.folder, edition.game, id, content)
            carried = sum(_carried(asking, device, one) for one in codes)
            shares.append(carried / len(codes))
    return shares


def _carried(asking: Asking, device: Device, code: Code) -> bool:
    answer = answer_of(device, code)
    return answer is not None and asking.objection(answer) is None


def _some_codes(device: Device, length: int) -> list[Code]:
    mechanism = entry(device)
    if mechanism.nominal(device, length) <= LOOKED_AT:
        return list(mechanism.codes(device, length))
    dice = Dice(LOOKED_AT)
    return [mechanism.random_code(dice, device, length) for _ in range(LOOKED_AT)]
