"""A code that is easily guessed opens its lock before its clue does."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import entry
from boxwright.problems import Answers, Finding, Problem

CODE = "code.weak"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each weak code, with every reason that is one."""
    for id, code in edition.codes.items():
        reasons = entry(about.device(id)).weak(about.device(id), code)
        if reasons and about.device(id).fixed is None:
            written = entry(about.device(id)).write(about.device(id), code)
            where = about.where("locks", id, "code")
            problem = Problem.of(CODE, where, lock=id, code=written, reasons=reasons)
            yield Finding(problem, "fix", "computed", Answers((written,)))
