"""An item that nothing is done with sets pupils wondering; it may be meant, so this is a note."""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.checks import About
from boxwright.checks.clue_without_use import is_needed
from boxwright.choose.edition import Edition
from boxwright.problems import Count, Finding, Problem

CODE = "item.without-use"


def check(edition: Edition, about: About) -> Iterator[Finding]:
    """Yield a note for each item that neither wins, opens, nor serves a clue."""
    game = edition.game
    led_to = {clue.gives for clue in game.clues.values()}
    for id, item in game.items.items():
        if not is_needed(game, id) and id not in led_to:
            problem = Problem.of(CODE, about.where("items", id), name=item.name, id=id)
            yield Finding(problem, "note", "computed", Count(0, 1))
