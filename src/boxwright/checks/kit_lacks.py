"""The shelf has what every group needs; where it has not, for how many groups it does."""

from __future__ import annotations

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
    short: dict[str, int] = {}
    for group in edition.groups:
        for id in lacking(game, edition.stickers[group]):
            short[id] = short.get(id, 0) + 1
    enough = sum(not lacking(game, edition.stickers[group]) for group in edition.groups)
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


def _kind(game: ArrangedGame, id: str) -> Arg:
    if id in game.locks:
        return say(f"mechanism.name-{game.locks[id].mechanism}")
    return game.items[id].tool or "" if id in game.items else ""
