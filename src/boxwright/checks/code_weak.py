"""A code that is easily guessed opens its lock before its clue does."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from boxwright.checks import About
from boxwright.checks.other_codes import other_code
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, entry
from boxwright.problems import Answers, Finding, Message, Problem, Severity

CODE = "code.weak"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield each weak code with every reason: to fix, or a note where the lock cannot be set."""
    for id, code in edition.codes.items():
        reasons = _reasons(about, id, code)
        if not reasons:
            continue
        fixed = any(device.fixed is not None for device in about.all_devices(id))
        written = about.written(id, code)
        problem = Problem.of(
            f"{CODE}-fixed" if fixed else CODE,
            about.where("locks", id, "code"),
            edit=other_code(edition, about, id, partial(_reasons, about, id)),
            lock=id,
            code=written,
            reasons=reasons,
        )
        severity: Severity = "note" if fixed else "fix"
        yield Finding(problem, severity, "computed", Answers((written,)))


def _reasons(about: About, lock: str, code: Code) -> tuple[Message, ...]:
    """Return why a code is weak on any group's lock, each reason once."""
    devices = about.all_devices(lock)
    return tuple(
        dict.fromkeys(why for device in devices for why in entry(device).weak(device, code))
    )
