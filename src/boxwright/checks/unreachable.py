"""Everything in play can be had: opened, found, solved. What cannot is told with what bars it.

What waits in a ring, and a lock that nothing leads to, are told by their own checks; here
stands what those bar, once for each of them, so that mending it clears both.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About, key_inside, lock_without_clue, locked_behind_itself
from boxwright.checks.reach import had, path_of
from boxwright.choose.edition import Edition
from boxwright.problems import Arg, Clash, Cycle, Finding, Problem, say

CODE = "reach.unreachable"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each thing that bars others, naming all that pupils can never have."""
    game = edition.game
    reached = had(edition, about)
    causes = tuple(_causes(edition, about))
    told = {thing for _, things in causes for thing in things}
    things = (*game.boxes, *game.items, *game.clues)
    lost = [id for id in things if id not in reached and id not in told]
    for cause, mended in causes:
        barred = [id for id in lost if id in had(edition, about, given=mended)]
        lost = [id for id in lost if id not in barred]
        if barred:
            yield _finding(edition, about, barred, cause)
    if lost:  # barred by several at once
        yield _finding(edition, about, lost, causes[0][0] if causes else None)


def _causes(edition: Edition, about: About) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what other checks found of the kind that bars things, and the things it is about."""
    for check in (key_inside.check, locked_behind_itself.check):
        for one in check(edition, about):
            if isinstance(one.evidence, Cycle):
                yield one.id, one.evidence.ids
    for one in lock_without_clue.check(edition, about):
        yield one.id, (str(one.problem.where.path[-1]),)


def _finding(edition: Edition, about: About, lost: list[str], because: str | None) -> Finding:
    first, *rest = (about.where(*path_of(edition, id)) for id in lost)
    names = tuple(_said(edition, id) for id in lost)
    problem = Problem.of(CODE, first, names=names, n=len(lost))
    evidence = Clash(tuple(lost), "reach")
    return Finding(problem, "stop", "computed", evidence, also=tuple(rest), because=because)


def _said(edition: Edition, id: str) -> Arg:
    return say("reach.clue", clue=id) if id in edition.game.clues else edition.game.name_of(id)
