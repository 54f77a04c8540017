"""Another code for a lock, where none has to be chosen: a shorter list, or one that is drawn.

A code that a page of the teacher's own leads to, or that hints of theirs speak of, is
theirs to change; so is a word, which is chosen for what it means.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from boxwright.checks import About
from boxwright.checks.guessing_codes import askings
from boxwright.checks.remedies import change, ways_to
from boxwright.choose.answers import answer_of
from boxwright.choose.chance import Chance
from boxwright.choose.codes import AUTO, ONE_OF, can_have, choose_code, near, written_codes
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, entry
from boxwright.problems import Edit, Problem, Refused
from boxwright.puzzles.shelf import kind

Bad = Callable[[Code], object]
"""Tells of a code whether it is bad, by whatever is true."""


def other_code(edition: Edition, about: About, lock: str, bad: Bad) -> Edit | None:
    """Return what keeps a lock from a code that is `bad`, if there is nothing to choose.

    Of a list, the bad ones go; a single code, or a list that has none but bad ones, gives
    way to one that is drawn.
    """
    named = written_codes(edition.game.locks[lock].code)
    left = tuple(one for one in named if not _is_bad(about, lock, one, bad))
    if len(left) == len(named):
        return None
    if left:
        return _only(edition, about, lock, left)
    drawn = _may_be_drawn(about, lock) and _drawn(edition, about, lock)
    return change(about, "locks", lock, "code", to=AUTO) if drawn and not bad(drawn) else None


def _is_bad(about: About, lock: str, written: str, bad: Bad) -> bool:
    code = _read(about, lock, written)
    return code is not None and bool(bad(code))


def _read(about: About, lock: str, written: str) -> Code | None:
    device = about.device(lock)
    code = entry(device).read(device, written, about.where("locks", lock, "code"))
    return None if isinstance(code, Problem) else code


def _only(edition: Edition, about: About, lock: str, left: tuple[str, ...]) -> Edit | None:
    """Return what leaves these codes on a lock's list, if one of them is good."""
    codes = (_read(about, lock, one) for one in left)
    if not any(code is not None and _is_good(edition, about, lock, code) for code in codes):
        return None
    between = ", " if "," in edition.game.locks[lock].code else " "
    shorter = left[0] if len(left) == 1 else ONE_OF + between.join(left)
    return change(about, "locks", lock, "code", to=shorter)


def _is_good(edition: Edition, about: About, lock: str, code: Code) -> bool:
    """Tell whether every group's lock shows a code, its sheets carry it, and none is near."""
    device = about.device(lock)
    answer = answer_of(device, code)
    like = (
        other
        for id, other in edition.codes.items()
        if id != lock and about.device(id).mechanism == device.mechanism
    )
    return (
        all(can_have(one, code) for one in about.all_devices(lock))
        and not any(near(code, other) for other in like)
        and answer is not None
        and all(one.objection(answer) is None for one in about.once(edition, askings, lock))
    )


def _may_be_drawn(about: About, lock: str) -> bool:
    """Tell whether a code may be any: no word, and in no clue's way a matter of the teacher's."""
    device = about.device(lock)
    theirs = (kind(way.kind).FACTS.own or way.hints is not None for way in ways_to(about, lock))
    is_word = entry(device).alphabet(device) == "letters" and device.fixed is None
    return not is_word and not any(theirs)


def _drawn(edition: Edition, about: About, lock: str) -> Code | None:
    """Return a code as it would be drawn; None where none can be."""
    try:
        return choose_code(
            replace(edition.game.locks[lock], code=AUTO),
            about.all_devices(lock),
            Chance(edition.seed).dice.child("code", lock, edition.set),
            about.where("locks", lock, "code"),
            lambda code: _is_good(edition, about, lock, code),
        )
    except Refused:
        return None
