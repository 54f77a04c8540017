"""Like locks have codes that differ in two places at least: else a slip opens the wrong one.

Locks of different makes that take the same symbols must not have the same code.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import combinations

from boxwright.checks import About
from boxwright.checks.other_codes import other_code
from boxwright.checks.sheets import code_of
from boxwright.choose.answers import answer_of
from boxwright.choose.codes import near
from boxwright.choose.edition import Edition
from boxwright.game.mechanisms import Code, entry
from boxwright.problems import Clash, Finding, Problem

CODE = "code.near"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each pair of locks with one code, or nearly one."""
    for one, other in combinations(edition.codes, 2):
        like = partial(_how, about, one, edition.codes[one], other)
        how = like(edition.codes[other])
        if how is None:
            continue
        problem = Problem.of(
            "code.same" if how == "same" else CODE,
            about.where("locks", other, "code"),
            edit=other_code(edition, about, other, like),
            one=one,
            other=other,
            codes=tuple(about.written(id, edition.codes[id]) for id in (one, other)),
        )
        also = (about.where("locks", one, "code"),)
        yield Finding(problem, "fix", "computed", Clash((one, other), "code"), also=also)


def _how(about: About, one: str, code: Code, other: str, others: Code) -> str | None:
    """Say whether the code `others` of `other` opens `one` ("same"), or all but does ("near")."""
    device = about.device(one)
    answer = answer_of(about.device(other), others)
    tried = None if answer is None else code_of(device, answer)
    if tried is not None and entry(device).same(device, code, tried):
        return "same"
    alike = device.mechanism == about.device(other).mechanism
    return "near" if alike and near(code, others) else None
