"""The game has an end that can be seen: an item that wins when it is reached."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.clue_without_use import is_needed
from boxwright.checks.reach import at_once
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Edit, Finding, Problem

CODE = "game.no-end"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix where nothing wins."""
    if not any(item.wins for item in edition.game.items.values()):
        problem = Problem.of(CODE, about.where("items"), edit=_winning(edition, about))
        yield Finding(problem, "fix", "computed", Count(0, 1))


def _winning(edition: Edition, about: About) -> Edit | None:
    """Return what lets an item win: the only one of no other use, if it is had last."""
    game = edition.game
    idle = [id for id in game.items if not is_needed(game, id)]
    if len(idle) != 1 or about.folder.game.items[idle[0]].optional:
        return None
    is_early = idle[0] in at_once(edition, about)
    return None if is_early else change(about, "items", idle[0], "wins", to=True)
