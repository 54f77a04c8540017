"""Every clue leads to something that is needed: a lock, an item of use, a place with something."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.arranged import ArrangedGame
from boxwright.problems import Count, Finding, Problem

CODE = "clue.without-use"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a thing to fix for each clue whose answer serves nothing."""
    game = edition.game
    for id, clue in game.clues.items():
        if clue.leads_to == "place" and not _lies_there(edition, clue.gives):
            code, name = f"{CODE}-place", clue.gives
        elif clue.leads_to == "item" and not is_needed(game, clue.gives):
            code, name = f"{CODE}-item", game.name_of(clue.gives)
        else:
            continue
        problem = Problem.of(code, about.where("clues", id, "gives"), clue=id, name=name)
        yield Finding(problem, "fix", "computed", Count(0, 1))


def _lies_there(edition: Edition, place: str) -> bool:
    boxes = {box.place for box in edition.game.boxes.values()}
    items = {item.place for item in edition.game.items.values()}
    parts = {part for sheet in edition.sheets.values() for part in sheet.parts.values()}
    return place in boxes | items | parts


def is_needed(game: ArrangedGame, item: str) -> bool:
    """Tell whether something is done with an item: it wins, opens, or serves a clue."""
    return (
        game.items[item].wins
        or any(lock.opened_by == item for lock in game.locks.values())
        or any(item in clue.needs for clue in game.clues.values())
    )
