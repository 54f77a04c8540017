"""A lock must be able to show its code: the right faces on every wheel, the right length.

Of a list of codes, those that the lock cannot show are never drawn, which is worth a
note; it stops the game where the code that was taken is one of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from boxwright.checks import About
from boxwright.checks.other_codes import other_code
from boxwright.choose.codes import can_have, words_for, written_codes
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import (
    Answers,
    Arg,
    Count,
    Edit,
    Evidence,
    Finding,
    MissingFace,
    Problem,
    Severity,
    Where,
)

CODE = "lock.cannot-show"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for a code that its lock cannot show, a note for one passed over."""
    for group, devices in about.devices.items():
        for id, code in edition.codes.items():
            device, where = devices[id], about.where("locks", id, "code")
            tag = edition.stickers.get(group, {}).get(id, id)
            for named in _named(device, edition.game.locks[id].code, where, code):
                if not can_have(device, named):
                    asked = _Asked(edition, about, id, tag, where)
                    problem = _problem(asked, device, named, taken=named == code)
                    severity: Severity = "stop" if named == code else "note"
                    yield Finding(problem, severity, "computed", _evidence(device, named, tag))


def _named(device: Device, text: str, where: Where, taken: Code) -> tuple[Code, ...]:
    """Return the code that was taken, then the others that the game names."""
    read = [entry(device).read(device, written, where) for written in written_codes(text)]
    return tuple(dict.fromkeys((taken, *(one for one in read if not isinstance(one, Problem)))))


class _Asked(NamedTuple):
    """A lock of the game, the sticker of the real one, and where its code stands."""

    edition: Edition
    about: About
    lock: str
    tag: str
    where: Where

    def edit(self) -> Edit | None:
        """Return what takes from the lock what some group's real lock cannot have."""
        devices = self.about.all_devices(self.lock)

        def is_barred(code: Code) -> bool:
            return not all(can_have(one, code) for one in devices)

        return other_code(self.edition, self.about, self.lock, is_barred)


def _problem(asked: _Asked, device: Device, code: Code, *, taken: bool) -> Problem:
    mechanism, where = entry(device), asked.where
    about: dict[str, Arg] = {
        "lock": asked.lock,
        "tag": asked.tag,
        "code": mechanism.write(device, code),
    }
    if device.fixed is not None:
        fixed = mechanism.write(device, device.fixed)
        told = "lock.fixed-otherwise" if taken else "lock.fixed-otherwise-one"
        return Problem.of(told, where, edit=asked.edit(), fixed=fixed, **about)
    why = mechanism.shows(device, code, where)
    words = words_for(device, asked.edition.game.language)
    return Problem.of(
        CODE if taken else f"{CODE}-one",
        where,
        edit=asked.edit(),
        why=why.what if why is not None else "",
        near=mechanism.near_said(device, code, words),
        **about,
    )


def _evidence(device: Device, code: Code, tag: str) -> Evidence:
    if device.fixed is not None:
        return Answers(tuple(entry(device).write(device, one) for one in (device.fixed, code)))
    if len(code) not in device.lengths:
        return Count(device.longest, len(code))
    missing = entry(device).lacking(device, code)
    if not missing:
        return Answers((entry(device).write(device, code),))
    at = missing[0]
    return MissingFace(tag, at + 1, code[at], device.positions[at])
