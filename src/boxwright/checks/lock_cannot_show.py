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
from boxwright.problems import Clash, Evidence, Finding, MissingFace, Problem

CODE = "lock.cannot-show"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for a code that its lock cannot show, a note for a word passed over."""
    for id, code in edition.codes.items():
        device = about.devices[id]
        where = about.where("locks", id, "code")
        for named in named_codes(device, edition.game.locks[id].code, where) or (code,):
            if not can_have(device, named):
                yield _finding(edition, about, id, named, taken=named == code)


def _finding(edition: Edition, about: About, id: str, code: Code, *, taken: bool) -> Finding:
    device, mechanism = about.devices[id], entry(about.devices[id])
    where = about.where("locks", id, "code")
    why = mechanism.shows(device, code, where)
    evidence = _evidence(device, code, edition.stickers.get(id, id))
    if device.fixed is not None or why is None:
        message = "lock.fixed-otherwise"
        fixed = device.fixed or code
        problem = Problem.of(
            message, where, lock=id, tag=_tag(edition, id), fixed=mechanism.write(device, fixed)
        )
        return Finding(problem, "stop" if taken else "note", "computed", evidence)
    code_id = CODE if taken else f"{CODE}-one"
    problem = Problem.of(
        code_id,
        where,
        lock=id,
        tag=_tag(edition, id),
        code=mechanism.write(device, code),
        why=why.what,
        near=mechanism.near_said(device, code),
    )
    return Finding(problem, "stop" if taken else "note", "computed", evidence)


def _tag(edition: Edition, id: str) -> str:
    return edition.stickers.get(id, id)


def _evidence(device: Device, code: Code, tag: str) -> Evidence:
    missing = entry(device).lacking(device, code)
    if not missing:
        return Clash(tuple(code), tag)
    at = missing[0]
    return MissingFace(tag, at + 1, code[at], device.positions[at])
