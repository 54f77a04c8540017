"""An item that nothing is done with sets pupils wondering; it may be meant, so this is a note."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.clue_without_use import is_needed
from boxwright.checks.other_places import lying
from boxwright.checks.remedies import taken_out
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Edit, Finding, Problem

CODE = "item.without-use"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each item that neither wins, opens, nor serves a clue."""
    game = edition.game
    led_to = {clue.gives for clue in game.clues.values()}
    for id, item in game.items.items():
        if not is_needed(game, id) and id not in led_to:
            where, edit = about.where("items", id), _without(edition, about, id)
            problem = Problem.of(CODE, where, edit=edit, name=item.name, id=id)
            yield Finding(problem, "note", "computed", Count(0, 1))


def _without(edition: Edition, about: About, item: str) -> Edit | None:
    """Return what takes an item out, unless it may be the prize or all that lies in a box."""
    game, place = edition.game, edition.game.items[item].place
    beside = any(one.place == place and one.thing != item for one in lying(edition))
    alone = place in game.boxes and not beside
    has_prize = any(one.wins for one in game.items.values())
    return taken_out(about, "items", item) if has_prize and not alone else None
