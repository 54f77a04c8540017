"""What wins the game is behind a lock; else the first glance round the room ends it."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.clue_without_use import serves
from boxwright.checks.other_places import may_move, where_lies
from boxwright.checks.reach import at_once, waves_of
from boxwright.checks.remedies import change
from boxwright.choose.edition import Edition
from boxwright.problems import Clash, Edit, Finding, Problem

CODE = "game.won-at-start"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each winning item that is had without a lock or a clue."""
    for id, item in edition.game.items.items():
        if item.wins and id in at_once(edition, about):
            where, edit = about.where("items", id, "place"), _to_the_last(edition, about, id)
            problem = Problem.of(CODE, where, edit=edit, name=item.name, id=id)
            yield Finding(problem, "fix", "computed", Clash((id,), "start"))


def _to_the_last(edition: Edition, about: About, item: str) -> Edit | None:
    """Return what puts an item into the box that is opened last, where that is one."""
    boxes = ([id for id in wave if id in edition.game.boxes] for wave in waves_of(edition, about))
    *_, last = [one for one in boxes if one] or [[]]
    if len(last) != 1 or last[0] in at_once(edition, about) or serves(edition.game, item):
        return None
    free = may_move(edition, about, where_lies(edition, item))
    return change(about, "items", item, "place", to=last[0]) if free else None
