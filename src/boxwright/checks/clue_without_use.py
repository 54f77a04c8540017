"""Every clue leads to something that is needed, and comes in time to be of use."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.other_places import lying
from boxwright.checks.reach import had
from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedClue, ArrangedGame
from boxwright.problems import Count, Finding, Problem

CODE = "clue.without-use"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each clue whose answer serves nothing, or comes too late."""
    game = edition.game
    for id, clue in game.clues.items():
        why = _useless(edition, about, id, clue)
        if why is not None:
            where, name = about.where("clues", id, "gives"), game.name_of(clue.gives)
            problem = Problem.of(f"{CODE}-{why}", where, clue=id, name=name)
            yield Finding(problem, "fix", "computed", Count(0, 1))


def _useless(edition: Edition, about: About, id: str, clue: ArrangedClue) -> str | None:
    if clue.leads_to == "place":
        return None if any(one.place == clue.gives for one in lying(edition)) else "place"
    if clue.leads_to == "item":
        return None if is_needed(edition.game, clue.gives) else "item"
    return "late" if _late(edition, about, id, clue.gives) else None


def _late(edition: Edition, about: About, id: str, lock: str) -> bool:
    """Tell whether the lock must be open, by another clue, before this one can be solved."""
    return id in had(edition, about) and id not in had(edition, about, without=[lock])


def is_needed(game: ArrangedGame, item: str) -> bool:
    """Tell whether something is done with an item: it wins, opens, or serves a clue."""
    return game.items[item].wins or serves(game, item)


def serves(game: ArrangedGame, item: str) -> bool:
    """Tell whether an item opens a lock or serves a clue."""
    opens = any(lock.opened_by == item for lock in game.locks.values())
    return opens or any(item in clue.needs for clue in game.clues.values())
