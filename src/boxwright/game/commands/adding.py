"""New boxes, locks, items and clues; an id is made from the name and is nobody else's."""

from __future__ import annotations

from typing import Any, Literal

from boxwright.game.commands.asked import (
    Asked,
    Code,
    Ids,
    Mechanism,
    Place,
    ShapeAsked,
    Size,
    WayAsked,
    held,
)
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.draft import GAME, SECTIONS
from boxwright.game.faults import ORDINARY
from boxwright.game.model import Count, Id, Name
from boxwright.problems import Message, say


class BoxAdd(Asked):
    """A new box."""

    name: Name
    place: Place = "table"
    inside_mm: Size | None = None
    locks: Count | None = None
    own_lock: bool | None = None
    optional: bool | None = None


class LockAdd(ShapeAsked):
    """A new lock; `name` is no more than what its id is made from."""

    mechanism: Mechanism
    closes: Id
    code: Code | None = None
    stand_in: Literal["allowed", "never"] | None = None
    opened_by: Id | None = None
    optional: bool | None = None
    name: Name | None = None


class ItemAdd(Asked):
    """A new item."""

    name: Name
    place: Place
    tool: Id | None = None
    wins: bool | None = None
    optional: bool | None = None


class ClueAdd(WayAsked):
    """A new clue with its first version; `name` is no more than what its id is made from."""

    gives: Id
    kind: Id
    goals: Ids | None = None
    optional: bool | None = None
    name: Name | None = None


def _add(desk: Desk, section: str, name: str, table: dict[str, Any]) -> Message:
    id = desk.fresh_id(name, SECTIONS[section])
    desk.table(GAME, section)[id] = table
    return say(f"change.{SECTIONS[section]}-added", id=id, name=table.get("name", id))


def _box(desk: Desk, asked: BoxAdd) -> Message:
    table = {"name": asked.name, "place": asked.place, **held(asked, "name", "place")}
    return _add(desk, "boxes", asked.name, table)


def _lock(desk: Desk, asked: LockAdd) -> Message:
    shape = {key: value for key, value in held(asked).items() if key in ShapeAsked.model_fields}
    rest = held(asked, "name", "mechanism", "closes", *shape)
    table = {"mechanism": asked.mechanism, **shape, "closes": asked.closes, **rest}
    return _add(desk, "locks", asked.name or f"{asked.closes}-lock", table)


def _item(desk: Desk, asked: ItemAdd) -> Message:
    return _add(desk, "items", asked.name, held(asked))


def _clue(desk: Desk, asked: ClueAdd) -> Message:
    way = first_the_kind(held(asked, "gives", "goals", "optional", "name"))
    head = {"gives": asked.gives, **held(asked, "gives", "kind", "name", *WayAsked.model_fields)}
    table = {**head, "versions": {asked.level or ORDINARY: way}}
    return _add(desk, "clues", asked.name or f"{asked.gives}-clue", table)


def first_the_kind(way: dict[str, Any]) -> dict[str, Any]:
    """Return a version in the order in which people write it: its level, its kind, the rest."""
    first = [key for key in ("level", "kind") if key in way]
    return {key: way[key] for key in (*first, *(key for key in way if key not in first))}


COMMANDS = (
    Command("box.add", BoxAdd, _box),
    Command("lock.add", LockAdd, _lock),
    Command("item.add", ItemAdd, _item),
    Command("clue.add", ClueAdd, _clue),
)
