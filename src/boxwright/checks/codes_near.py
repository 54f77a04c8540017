"""Like locks have codes that differ in two places at least: else a slip opens the wrong one."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from boxwright.checks import About
from boxwright.choose.codes import near
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import entry
from boxwright.problems import Clash, Finding, Problem

CODE = "code.near"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each pair of like locks with equal or nearly equal codes."""
    game = edition.game
    for one, other in combinations(edition.codes, 2):
        if game.locks[one].mechanism != game.locks[other].mechanism:
            continue
        if near(edition.codes[one], edition.codes[other]):
            written = tuple(
                entry(about.device(id)).write(about.device(id), edition.codes[id])
                for id in (one, other)
            )
            problem = Problem.of(
                CODE,
                about.where("locks", other, "code"),
                one=one,
                other=other,
                codes=written,
            )
            also = (about.where("locks", one, "code"),)
            yield Finding(problem, "fix", "computed", Clash((one, other), "code"), also=also)
