"""The shelf has what every group needs; where it has not, for how many groups it does."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.fitting import lacking
from boxwright.game.arranged import ArrangedGame
from boxwright.problems import Arg, Count, Finding, Problem, say

CODE = "kit.lacks"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a stop for each thing that some group goes without."""
    kit, game = about.folder.kit, edition.game
    if kit is None:
        return
    lacks = [lacking(game, edition.stickers[group]) for group in edition.groups]
    short = Counter(id for missed in lacks for id in missed if not _with_lock(game, id, missed))
    enough = lacks.count(())
    for id, groups in short.items():
        sort = next(s for s in ("boxes", "locks", "items") if id in getattr(game, s))
        problem = Problem.of(
            f"{CODE}-{sort}",
            about.where(sort, id),
            id=id,
            name=game.name_of(id),
            kind=_kind(game, id),
            kit=kit.kit.name,
            n=enough,
            groups=len(edition.groups),
        )
        have = len(edition.groups) - groups
        yield Finding(problem, "stop", "computed", Count(have, len(edition.groups)))


def _with_lock(game: ArrangedGame, id: str, missed: tuple[str, ...]) -> bool:
    """Tell whether `id` is the key of a lock that is missed itself: then that one is told."""
    return any(one in missed and game.locks[one].opened_by == id for one in game.locks)


def _kind(game: ArrangedGame, id: str) -> Arg:
    if id in game.locks:
        return say(f"mechanism.name-{game.locks[id].mechanism}")
    if id in game.items:
        return game.items[id].tool or say("kit.a-key")
    return ""
