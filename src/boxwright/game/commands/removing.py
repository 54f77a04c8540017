"""A thing taken away, and with it what names it.

What lay in a box that goes lies where the box lay. Locks of the box go with it. A clue to
a lock or an item goes only where that is asked for; what is told in the teacher's own
words is never taken away, but named.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from boxwright.frozen import frozen_value
from boxwright.game.commands.asked import Asked
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.draft import GAME, SECTIONS
from boxwright.game.model import TABLE, Id
from boxwright.game.names import wishes_of
from boxwright.game.uses import uses
from boxwright.problems import Message, Path, Problem, Step, refuse, say


class ThingRemove(Asked):
    """A thing that goes, with the clues that lead to it or without."""

    id: Id
    with_clue: bool = False


@frozen_value
class _Instead:
    """Stands in a list for a member that goes, until the others can move up."""

    members: tuple[Any, ...] = ()


def _remove(desk: Desk, asked: ThingRemove) -> Message:
    game, section = desk.data(GAME), desk.section(asked.id)
    name, place = desk.name_of(asked.id), desk.thing(asked.id).get("place", TABLE)
    ids = _going(desk, asked)
    for one in ids:
        del game[desk.section(one)][one]
    for one in ids:
        for path in _unspoken(desk, one):
            _take_away(game, path, place)
    _move_up(game)
    return say(f"change.{SECTIONS[section]}-removed", id=asked.id, name=name)


def _going(desk: Desk, asked: ThingRemove) -> list[str]:
    """Return the ids of all that goes. Raises Refused where a clue would lead nowhere."""
    locks, clues = desk.table(GAME, "locks"), desk.table(GAME, "clues")
    ids = [asked.id]
    if desk.section(asked.id) == "boxes":
        ids += [id for id, lock in locks.items() if lock.get("closes") == asked.id]
    leading = [id for id, clue in clues.items() if clue.get("gives") in ids and id not in ids]
    if leading and not asked.with_clue:
        places = [desk.file(GAME).where(("clues", id, "gives")) for id in leading]
        lines = tuple(one.line or 0 for one in places)
        name = desk.name_of(asked.id)
        refuse(
            Problem.of("change.has-clue", places[0], name=name, clues=tuple(leading), lines=lines)
        )
    return ids + leading


def _unspoken(desk: Desk, id: str) -> list[Path]:
    """Return the paths at which `id` is used. Raises Refused where a text of the teacher's does."""
    found = list(uses(desk.data(GAME), id))
    told = [path for use, path in found if use == "text" or path[-1] == "when"]
    if told:
        places = [desk.file(GAME).where(path) for path in told]
        lines = tuple(dict.fromkeys(one.line or 0 for one in places))
        refuse(Problem.of("change.told-of", places[0], id=id, lines=lines))
    return [path for _, path in found]


def _take_away(game: dict[str, Any], path: Path, place: Any) -> None:
    """Take one use of a thing away; what lay in it lies at `place`."""
    *way, last = path
    *before, key = way
    above = _at(game, before)
    node = above[key]
    lies = "place" in path[-2:] or (len(path) > 4 and path[4] == "parts")
    if isinstance(node, list):
        node[int(last)] = _Instead(wishes_of(place) if lies else ())
    elif lies:
        node[last] = place
    else:
        del node[last]
        if not node:
            del above[key]


def _at(node: Any, path: Iterable[Step]) -> Any:
    for step in path:
        node = node[step]
    return node


def _move_up(table: dict[str, Any]) -> None:
    """Close the gaps in all lists below `table`; a list of which nothing is left goes."""
    for key, value in list(table.items()):
        if isinstance(value, dict):
            _move_up(value)
        elif isinstance(value, list) and any(isinstance(one, _Instead) for one in value):
            table[key] = list(dict.fromkeys(_joined(value)))
            if not table[key]:
                del table[key]


def _joined(members: Iterable[Any]) -> Iterator[Any]:
    for one in members:
        yield from one.members if isinstance(one, _Instead) else (one,)


COMMANDS = (Command("thing.remove", ThingRemove, _remove),)
