"""The teacher's texts as they are told: names filled in, what is wrong with them, and to whom.

A text is taken to pieces rather than filled in, so that a page can show which words are
the name of a thing.
"""

from __future__ import annotations

from collections.abc import Iterator

from boxwright.frozen import frozen_value
from boxwright.game.arranged import Arranged
from boxwright.game.draft import GAME, ROOM, Draft, sorts_of
from boxwright.game.folder import Folder, Problems
from boxwright.game.names import NAMED, text_names
from boxwright.game.placeholders import pieces
from boxwright.problems import Path


@frozen_value
class Piece:
    """Some words of a text; `id` is the thing whose name they are."""

    text: str
    id: str | None = None


def name_of(folder: Folder, id: str) -> str:
    """Return what the thing or place `id` is called; the id where it has no name."""
    thing = folder.game.boxes.get(id) or folder.game.items.get(id)
    if thing is None and folder.room is not None:
        place = folder.room.places.get(id)
        return id if place is None else place.name
    return thing.name if thing is not None else id


def told(folder: Folder, text: str) -> tuple[Piece, ...]:
    """Return `text` piece by piece, with the names of what stands between braces."""
    return tuple(
        Piece(name_of(folder, one), one) if is_id else Piece(one) for one, is_id in pieces(text)
    )


def text_faults(folder: Folder, text: str, path: Path = ("story",)) -> Problems:
    """Return what is wrong with the names in `text`, which is to stand at `path`."""
    return tuple(text_names(_draft(folder), path, text))


def nameable(folder: Folder) -> Iterator[tuple[str, str]]:
    """Yield the id and the name of all that a text can name."""
    return ((id, name_of(folder, id)) for id in _draft(folder).named(*NAMED))


def groups_with(arranged: Arranged, folder: Folder, id: str) -> tuple[str, ...]:
    """Return the groups for which the thing or place `id` is in play."""
    if folder.room is not None and id in folder.room.places:
        return arranged.groups
    return tuple(group for group in arranged.groups if _plays(arranged, group, id))


def _plays(arranged: Arranged, group: str, id: str) -> bool:
    game = arranged.of(group)
    return any(id in things for things in (game.boxes, game.locks, game.items, game.clues))


def _draft(folder: Folder) -> Draft:
    room = folder.files[ROOM].data if ROOM in folder.files else {}
    sorts = sorts_of(folder.files[GAME].data, room)
    return Draft(folder.path, folder.game, folder.kit, folder.room, folder.files, sorts)
