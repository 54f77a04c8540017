"""What wishes change: two arrangements of one game held against each other."""

from __future__ import annotations

from boxwright.frozen import frozen_value
from boxwright.game.arranged import ArrangedGame
from boxwright.game.model import Level


@frozen_value
class Otherwise:
    """A clue that is made in another way, or at another level of the same way."""

    clue: str
    way: str
    level: Level
    before: str


@frozen_value
class Compared:
    """Clues made otherwise, things that come into play, and things that leave it."""

    otherwise: tuple[Otherwise, ...]
    come: tuple[str, ...]
    gone: tuple[str, ...]

    def __bool__(self) -> bool:
        """Tell whether anything differs."""
        return bool(self.otherwise or self.come or self.gone)


def compared(before: ArrangedGame, after: ArrangedGame) -> Compared:
    """Return how `after` differs from `before` in what is played."""
    otherwise = tuple(
        Otherwise(id, clue.way, clue.level, before.clues[id].way)
        for id, clue in after.clues.items()
        if id in before.clues and _made(before, id) != _made(after, id)
    )
    old, new = _things(before), _things(after)
    return Compared(
        otherwise,
        tuple(id for id in new if id not in old),
        tuple(id for id in old if id not in new),
    )


def _made(game: ArrangedGame, clue: str) -> tuple[str, Level]:
    return game.clues[clue].way, game.clues[clue].level


def _things(game: ArrangedGame) -> tuple[str, ...]:
    return (*game.boxes, *game.locks, *game.items, *game.clues)
