"""What a table will most likely do next, so that a visit to it takes one tap.

A box comes next when it can be reached and what leads to all its closed locks is in hand; a thing
when its clue can be worked on. Where nothing comes next by that, somebody did something that
nobody foresaw: then it is every closed box that can be reached.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from boxwright.game.arranged import ArrangedGame, boxes_around
from boxwright.live.table import Table

IN_HAND = ("ready", "taken", "solved")


@dataclass(frozen=True, slots=True)
class Next:
    """A box or an item, and what is to be noted once it is open or found.

    `notes` are locks for a box, from the outside in, and the item itself for an item.
    """

    thing: str
    name: str
    sort: Literal["box", "item"]
    notes: tuple[str, ...]


def ahead(table: Table, game: ArrangedGame) -> tuple[Next, ...]:
    """Return what comes next at a table, boxes first; nothing once it is won."""
    if table.won:
        return ()
    boxes = [id for id in table.boxes if _reachable(table, game, id)]
    found = [*_boxes(table, game, (id for id in boxes if _led_to(table, game, id))), *_items(table)]
    return tuple(found or _boxes(table, game, boxes))


def notes_for(table: Table, game: ArrangedGame, box: str) -> tuple[str, ...]:
    """Return the locks to be noted as open when a box is, its own and those around it."""
    around = reversed(boxes_around(game, box))
    return tuple(lock for one in around for lock in _closed(table, one))


def _boxes(table: Table, game: ArrangedGame, boxes: Iterator[str] | list[str]) -> Iterator[Next]:
    for id in boxes:
        yield Next(id, table.boxes[id].name, "box", notes_for(table, game, id))


def _items(table: Table) -> Iterator[Next]:
    """Yield the items that a clue in hand leads to."""
    for clue in table.clues.values():
        item = table.items.get(clue.gives)
        if item is not None and item.had_ms is None and clue.standing in IN_HAND:
            yield Next(item.id, item.name, "item", (item.id,))


def _reachable(table: Table, game: ArrangedGame, box: str) -> bool:
    """Tell whether a box is closed and all boxes around it are open."""
    around = boxes_around(game, table.boxes[box].place)
    return bool(_closed(table, box)) and all(table.boxes[one].open for one in around)


def _closed(table: Table, box: str) -> tuple[str, ...]:
    return tuple(lock for lock in table.boxes[box].locks if table.locks[lock].opened is None)


def _led_to(table: Table, game: ArrangedGame, box: str) -> bool:
    return all(_in_hand(table, game, lock) for lock in _closed(table, box))


def _in_hand(table: Table, game: ArrangedGame, lock: str) -> bool:
    """Tell whether what leads to a lock's opening is in hand: its key, or a clue to its code."""
    key = game.locks[lock].opened_by
    if key is not None:
        return table.items[key].had_ms is not None
    return any(table.clues[clue].standing in IN_HAND for clue in table.locks[lock].clues)
