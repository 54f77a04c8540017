"""An edition: a game made concrete for the groups that share its codes and its ways.

It keeps the sheets as they were made, so that last year's print-outs come out again;
the seed serves only to make new ones. `edition_json` and `edition_from_json` go to the
file and back; the id follows from all the rest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, TypeVar

from boxwright import __version__
from boxwright.choose.marks import Mark, Triple
from boxwright.frozen import frozen_value
from boxwright.game.arranged import ArrangedGame
from boxwright.game.format import FORMAT
from boxwright.game.mechanisms import Code
from boxwright.problems import Problem, Where
from boxwright.records import from_json, to_json
from boxwright.text import content_id, nearest

T = TypeVar("T")


@frozen_value
class EditionSheet:
    """The sheet of one clue: JSON of what is printed and what is known, and where parts lie."""

    kind: str
    mark: Triple
    throw: int
    sheet: Mapping[str, Any]
    knows: Mapping[str, Any]
    parts: Mapping[str, str]


@frozen_value
class Edition:
    """One printed set; ids of the game lead to places, codes, sheets and each group's stickers.

    `order` lists all ids as the game file does: JSON with sorted keys would lose that.
    """

    seed: int
    set: str
    groups: tuple[str, ...]
    printing: Triple
    game: ArrangedGame
    chosen: Mapping[str, str]
    stickers: Mapping[str, Mapping[str, str]]
    places: Mapping[str, str]
    codes: Mapping[str, Code]
    sheets: Mapping[str, EditionSheet]
    order: tuple[str, ...]
    format: int = FORMAT
    boxwright: str = __version__
    id: str = ""

    def mark(self, clue: str) -> Mark:
        """Return the signs in the foot of a clue's sheets."""
        return Mark(self.printing, self.sheets[clue].mark)


def edition_json(edition: Edition) -> dict[str, Any]:
    """Return `edition` as JSON values."""
    value: dict[str, Any] = to_json(edition)
    return value


def edition_from_json(value: Any) -> Edition:
    """Return the edition that `edition_json` gave; raises Refused for anything else."""
    return _in_order(from_json(Edition, value))


def order_of(game: ArrangedGame) -> tuple[str, ...]:
    """Return all ids of `game` in its own order."""
    return (*game.goals, *game.boxes, *game.locks, *game.items, *game.clues)


def _in_order(edition: Edition) -> Edition:
    """Return `edition` with all that is keyed by ids in the order of the game file."""
    ranks = {id: rank for rank, id in enumerate((*edition.groups, *edition.order))}

    def ordered(mapping: Mapping[str, T]) -> dict[str, T]:
        return dict(sorted(mapping.items(), key=lambda pair: ranks.get(pair[0], len(ranks))))

    game = edition.game
    return replace(
        edition,
        game=replace(
            game,
            goals=ordered(game.goals),
            boxes=ordered(game.boxes),
            locks=ordered(game.locks),
            items=ordered(game.items),
            clues=ordered(game.clues),
        ),
        chosen=ordered(edition.chosen),
        stickers={group: ordered(mine) for group, mine in ordered(edition.stickers).items()},
        places=ordered(edition.places),
        codes=ordered(edition.codes),
        sheets=ordered(edition.sheets),
    )


def named(edition: Edition) -> Edition:
    """Return `edition` under the name that follows from its content."""
    value = edition_json(edition)
    del value["id"]
    return replace(edition, id=content_id(value))


def no_sheet(clue: str, known: tuple[str, ...], where: Where) -> Problem:
    """Return the problem that a printed set has no sheet for `clue`, with the nearest it has."""
    near = nearest(clue.lower(), known)
    code = "edition.no-sheet" if near is None else "edition.no-sheet-but"
    return Problem.of(code, where, clue=clue, near=near or "", choices=known)
