"""The pieces of a session's pages that change in play, drawn for all pages at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from boxwright.choose.edition import Edition
from boxwright.live.ahead import Next
from boxwright.live.noted import Group
from boxwright.paper.outs.lines import sentence
from boxwright.web.playing import Playing, Tile, tile_of
from boxwright.web.render import fragment

PageName = Literal["hour", "wall"]


@dataclass(frozen=True, slots=True)
class Shelved:
    """One box of the game on the wall, and how many tables have its lid up, of how many."""

    id: str
    inside_mm: tuple[float, float, float] | None
    up: int
    of: int


class Pieces:
    """Pieces by the ids of their elements; each is drawn anew only where what it shows changed.

    A piece shows nothing that changes by itself: the clock is the pages' own.
    """

    def __init__(self) -> None:
        """Begin with nothing drawn."""
        self._tiles: dict[str, tuple[Group, Tile]] = {}
        self._drawn: dict[str, tuple[Any, str]] = {}

    def of(self, page: PageName, playing: Playing) -> dict[str, str]:
        """Return all pieces of a page."""
        tiles = tuple(self._tile(group, edition) for group, edition in playing.groups())
        if page == "wall":
            shelf = shelf_of(tiles, playing.editions)
            return {"lids": self._kept("lids", shelf, lambda: _lids(shelf))}
        drawn = {f"tile-{one.group.id}": self._tile_drawn(one, playing) for one in tiles}
        return drawn | self._lines(playing, tiles)

    def _tile(self, group: Group, edition: Edition) -> Tile:
        known = self._tiles.get(group.id)
        if known is None or known[0] != group:
            known = self._tiles[group.id] = (group, tile_of(group, edition))
        return known[1]

    def _tile_drawn(self, tile: Tile, playing: Playing) -> str:
        edition = playing.editions[tile.group.id]
        return self._kept(f"tile-{tile.group.id}", tile.group, lambda: _tile_drawn(tile, edition))

    def _lines(self, playing: Playing, tiles: Iterable[Tile]) -> dict[str, str]:
        """Return what stands around the tables."""
        state, undo = playing.state, (tuple(playing.undoable()), playing.redoable())
        ended = state.clock.status == "ended"
        hands = (state.clock.status, state.closed, outcomes(tiles) if ended else [])
        names = tuple(one.name for one in state.groups.values())
        values = {"playing": playing, "state": state, "outcomes": hands[2], "sentence": sentence}

        def drawn(name: str, of: Any) -> str:
            return self._kept(name, of, lambda: fragment(f"hour_{name}.html", values))

        return {
            "undo-line": drawn("undo", undo),
            "mishaps": drawn("mishaps", (state.mishaps, names)),
            "hands": drawn("hands", hands),
        }

    def _kept(self, id: str, of: Any, draw: Callable[[], str]) -> str:
        known = self._drawn.get(id)
        if known is None or known[0] != of:
            known = self._drawn[id] = (of, draw())
        return known[1]


def _lids(shelf: tuple[Shelved, ...]) -> str:
    return fragment("wall_lids.html", {"shelf": shelf})


def _tile_drawn(tile: Tile, edition: Edition) -> str:
    inside = {id: box.inside_mm for id, box in edition.game.boxes.items()}
    return fragment("hour_tile.html", {"tile": tile, "taps": taps_of, "inside_mm": inside})


def taps_of(group: str, one: Next) -> list[dict[str, Any]]:
    """Return what a page sends once a box is open or an item found: type and data."""
    kind, name = ("lock.opened", "lock") if one.sort == "box" else ("item.found", "item")
    return [{"type": kind, "data": {"group": group, name: id}} for id in one.notes]


def outcomes(tiles: Iterable[Tile]) -> list[dict[str, Any]]:
    """Return what a page sends to close a session: how each table's game ended, and the end."""
    return [*map(_outcome, _playing(tiles)), {"type": "session.closed", "data": {}}]


def _playing(tiles: Iterable[Tile]) -> Iterator[Tile]:
    return (tile for tile in tiles if tile.group.finished is None)


def _outcome(tile: Tile) -> dict[str, Any]:
    data = {"group": tile.group.id, "outcome": "won" if tile.table.won else "unfinished"}
    return {"type": "group.finished", "data": data}


def shelf_of(tiles: Iterable[Tile], editions: Mapping[str, Edition]) -> tuple[Shelved, ...]:
    """Return all boxes of all tables, so that nobody sees whose is open."""
    lids: dict[str, list[bool]] = {}
    inside: dict[str, tuple[float, float, float] | None] = {}
    for tile in tiles:
        boxes = editions[tile.group.id].game.boxes
        for box in tile.lids:
            lids.setdefault(box.id, []).append(box.open)
            inside[box.id] = boxes[box.id].inside_mm
    return tuple(Shelved(id, inside[id], sum(up), len(up)) for id, up in lids.items())
