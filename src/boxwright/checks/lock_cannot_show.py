"""A lock must be able to show its code: the right faces on every wheel, the right length.

Of a list of words, those that the lock cannot show are never drawn, which is worth a
note; it stops the game where the code that was taken is one of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.codes import can_have, named_codes
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.problems import (
    Clash,
    Evidence,
    Finding,
    MissingFace,
    Problem,
    Severity,
    Where,
)

CODE = "lock.cannot-show"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for a code that its lock cannot show, a note for a word passed over."""
    for group, devices in about.devices.items():
        for id, code in edition.codes.items():
            device, where = devices[id], about.where("locks", id, "code")
            tag = edition.stickers.get(group, {}).get(id, id)
            for named in named_codes(device, edition.game.locks[id].code, where) or (code,):
                if not can_have(device, named):
                    problem = _problem(device, named, where, id, tag, taken=named == code)
                    severity: Severity = "stop" if named == code else "note"
                    yield Finding(problem, severity, "computed", _evidence(device, named, tag))


def _problem(
    device: Device, code: Code, where: Where, id: str, tag: str, *, taken: bool
) -> Problem:
    mechanism = entry(device)
    if device.fixed is not None:
        fixed = mechanism.write(device, device.fixed)
        return Problem.of("lock.fixed-otherwise", where, lock=id, tag=tag, fixed=fixed)
    why = mechanism.shows(device, code, where)
    return Problem.of(
        CODE if taken else f"{CODE}-one",
        where,
        lock=id,
        tag=tag,
        code=mechanism.write(device, code),
        why=why.what if why is not None else "",
        near=mechanism.near_said(device, code),
    )


def _evidence(device: Device, code: Code, tag: str) -> Evidence:
    missing = entry(device).lacking(device, code)
    if not missing:
        return Clash(tuple(code), tag)
    at = missing[0]
    return MissingFace(tag, at + 1, code[at], device.positions[at])
