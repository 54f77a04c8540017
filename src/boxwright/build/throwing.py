"""Other dice for one sheet: shown before anything is kept, kept for the printed set."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from boxwright.build import build
from boxwright.build.current import chance_of, current_editions, keep, last_asked
from boxwright.choose import store
from boxwright.choose.chance import Chance
from boxwright.choose.edition import Edition
from boxwright.problems import Refused


def chance_shown(game: Path, otherwise: Chance) -> Chance:
    """Return the chance with which a game's sheets are to be shown.

    That of its printed set; where none was made yet, the one that was kept for it, else
    `otherwise`.
    """
    editions = _readable(game)
    return chance_of(editions) if editions else store.chance_to_come(game) or otherwise


def _readable(game: Path) -> tuple[Edition, ...]:
    try:
        return current_editions(game)
    except Refused:
        return ()


def keep_throw(game: Path, clue: str, throw: int, otherwise: Chance) -> bool:
    """Keep the sheet that `clue` has after so many throws; tell whether a printed set was made.

    The current printed set is made anew with it, from the game as it is; where there is
    none, the throw waits for the first. Raises Refused where that set cannot be made.
    """
    chance = chance_shown(game, otherwise)
    chance = replace(chance, throws={**chance.throws, clue: throw})
    if not current_editions(game):
        store.keep_chance(game, chance)
        return False
    asked = replace(last_asked(game), chance=chance)
    keep(build(asked), asked)
    return True
