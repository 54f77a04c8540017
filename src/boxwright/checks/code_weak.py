"""A code that is easily guessed opens its lock before its clue does."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import entry
from boxwright.problems import Answers, Finding, Message, Problem, Severity

CODE = "code.weak"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield each weak code with every reason: to fix, or a note where the lock cannot be set."""
    for id, code in edition.codes.items():
        reasons: dict[Message, None] = {}
        for device in about.all_devices(id):
            reasons |= dict.fromkeys(entry(device).weak(device, code))
        if not reasons:
            continue
        fixed = any(device.fixed is not None for device in about.all_devices(id))
        written = about.written(id, code)
        problem = Problem.of(
            f"{CODE}-fixed" if fixed else CODE,
            about.where("locks", id, "code"),
            lock=id,
            code=written,
            reasons=tuple(reasons),
        )
        severity: Severity = "note" if fixed else "fix"
        yield Finding(problem, severity, "computed", Answers((written,)))
