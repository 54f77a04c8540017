"""A thing of the game called otherwise, put elsewhere, or with another value in a field."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boxwright.game.commands.asked import Asked, Place, Value, filed
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk, Table
from boxwright.game.draft import GAME, ROOM
from boxwright.game.model import Id, Name
from boxwright.game.names import wishes_of
from boxwright.game.rename import renamed
from boxwright.problems import Arg, Message, Problem, Where, refuse, say


class ThingRename(Asked):
    """Another id for a thing, wherever it is used."""

    id: Id
    new: Id


class ThingName(Asked):
    """What pupils call a thing."""

    id: Id
    name: Name


class ThingMove(Asked):
    """Where a thing lies, or which box a lock closes; for a clue, one version or all."""

    id: Id
    to: Place
    version: Id | None = None


SAID = frozenset({
    "inside_mm", "locks", "own_lock", "optional", "code", "wheels", "length", "opened_by",
    "stand_in", "tool", "wins", "gives",
    "title", "summary", "language", "licence", "authors", "ages", "groups", "pupils", "hints",
})  # fmt: skip
"""The fields that have words of their own."""


class ThingSet(Asked):
    """One field of a thing, by its name in the file; None takes it away."""

    id: Id
    field: Id | Name
    value: Value = None


def _rename(desk: Desk, asked: ThingRename) -> Message:
    places = tuple(desk.file(ROOM).data.get("places", {})) if desk.has(ROOM) else ()
    after = renamed(desk.file(GAME), places, asked.id, asked.new)
    if isinstance(after, Problem):
        refuse(after)
    desk.put_text(GAME, after)
    return say("change.renamed", id=asked.new, old=asked.id)


def _name(desk: Desk, asked: ThingName) -> Message:
    old = desk.name_of(asked.id)
    if desk.section(asked.id) in ("locks", "clues"):
        refuse(Problem.of("change.no-name", Where(GAME), id=asked.id))
    desk.thing(asked.id)["name"] = asked.name
    return say("change.named", id=asked.id, old=old, name=asked.name)


def _move(desk: Desk, asked: ThingMove) -> Message:
    section, thing = desk.section(asked.id), desk.thing(asked.id)
    if section == "locks":
        thing["closes"] = filed(asked.to)
    elif section == "clues":
        for version in _versions(desk, asked, thing):
            version["place"] = filed(asked.to)
    else:
        _hold_apart(desk, asked)
        thing["place"] = filed(asked.to)
    return say("change.moved", id=asked.id, name=desk.name_of(asked.id), to=_said(desk, asked.to))


def _versions(desk: Desk, asked: ThingMove, clue: Mapping[str, Any]) -> list[Table]:
    names = tuple(clue.get("versions", {})) if asked.version is None else (asked.version,)
    return [version_of(desk, asked.id, name) for name in names]


def version_of(desk: Desk, clue: str, name: str) -> Table:
    """Return one version of a clue, to be changed. Raises Refused where there is none."""
    if desk.section(clue) != "clues":
        refuse(Problem.of("change.no-clue", Where(GAME), id=clue))
    versions = desk.table(GAME, "clues", clue, "versions")
    if name not in versions:
        choices = tuple(versions)
        refuse(Problem.of("change.no-version", Where(GAME), id=name, clue=clue, choices=choices))
    return desk.table(GAME, "clues", clue, "versions", name)


def _hold_apart(desk: Desk, asked: ThingMove) -> None:
    """Refuse a box that would lie in itself, by way of others perhaps."""
    boxes = desk.table(GAME, "boxes")
    seen: set[str] = set()
    ahead = [(one, one) for one in wishes_of(asked.to)]
    while ahead:
        at, first = ahead.pop()
        if at == asked.id and asked.id in boxes:
            where = Where(GAME, ("boxes", asked.id, "place"))
            code = "change.box-in-itself" if first == asked.id else "arrange.box-in-itself"
            refuse(Problem.of(code, where, id=asked.id, other=first))
        if at in boxes and at not in seen:
            seen.add(at)
            wishes = desk.table(GAME, "boxes", at).get("place", "table")
            ahead += [(one, first) for one in wishes_of(wishes)]


def _said(desk: Desk, place: str | tuple[str, ...]) -> str:
    first = wishes_of(place)[0]
    boxes = desk.table(GAME, "boxes")
    return desk.name_of(first) if first in boxes else first


def _set(desk: Desk, asked: ThingSet) -> Message:
    thing, name = desk.thing(asked.id), desk.name_of(asked.id)
    put(thing, {asked.field: filed(asked.value)})
    return say("change.set", id=asked.id, name=name, field=field_said(asked.field))


def field_said(field: str) -> Arg:
    """Return what people call a field; one that pages have no form for, as the file calls it."""
    return say(f"change.field-{field.replace('_', '-')}") if field in SAID else field


def put(table: Table, values: Mapping[str, Any]) -> None:
    """Put `values` into `table`; None takes a key away."""
    for key, value in values.items():
        if value is None:
            table.pop(key, None)
        else:
            table[key] = value


COMMANDS = (
    Command("thing.rename", ThingRename, _rename),
    Command("thing.name", ThingName, _name),
    Command("thing.move", ThingMove, _move),
    Command("thing.set", ThingSet, _set),
)
