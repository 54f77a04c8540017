"""Which sheets are printed together: those that go to one place, or lie on each other.

A pile is one file. Whoever prints it gets paper for one place and nothing to sort. Parts
that must lie on each other come out of one printer in one go, so they make a pile of
their own, wherever they go afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.choose.edition import Edition
from boxwright.choose.ways import part_name
from boxwright.frozen import frozen_value
from boxwright.game.model import START, TABLE
from boxwright.puzzles.contract import Reader
from boxwright.puzzles.shelf import kind


@frozen_value
class Piece:
    """One printed part of one clue, and where it goes."""

    clue: str
    part: str
    place: str

    @property
    def name(self) -> str:
        """Its name among the things of an edition."""
        return part_name(self.clue, self.part)


@frozen_value
class Pile:
    """Pieces of one file; `place` is None where they go to several."""

    name: str
    place: str | None
    pieces: tuple[Piece, ...]


def pieces(edition: Edition, reader: Reader = "pupils") -> Iterator[Piece]:
    """Yield every part that is there for `reader`, clue by clue."""
    for clue, kept in edition.sheets.items():
        for part in kind(kept.kind).FACTS.parts:
            if part.reader == reader and kept.sheet.get(part.name.replace("-", "_")) is not None:
                yield Piece(
                    clue, part.name, kept.parts.get(part.name, edition.game.clues[clue].place)
                )


def piles(edition: Edition) -> tuple[Pile, ...]:
    """Return all pupils' sheets in piles: handed out first, then the table, boxes, the room."""
    laid: dict[str, list[Piece]] = {}
    loose: dict[str, list[Piece]] = {}
    for piece in pieces(edition):
        made = kind(edition.sheets[piece.clue].kind)
        together = "film" in made.FACTS.uses
        (laid if together else loose).setdefault(
            piece.clue if together else piece.place, []
        ).append(piece)
    places = sorted(loose, key=lambda place: _rank(edition, place))
    return (
        *(Pile(_name(edition, place), place, tuple(loose[place])) for place in places),
        *(_laid(edition, clue, tuple(found)) for clue, found in laid.items()),
    )


def _laid(edition: Edition, clue: str, found: tuple[Piece, ...]) -> Pile:
    places = {piece.place for piece in found}
    return Pile(f"over-{clue}", places.pop() if len(places) == 1 else None, found)


def _rank(edition: Edition, place: str) -> tuple[int, int]:
    boxes = list(edition.game.boxes)
    if place in (START, TABLE):
        return (0, int(place == TABLE))
    return (1, boxes.index(place)) if place in boxes else (2, 0)


def _name(edition: Edition, place: str) -> str:
    if place in (START, TABLE):
        return place
    return f"in-{place}" if place in edition.game.boxes else f"at-{place}"
