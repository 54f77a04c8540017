"""Remedies that need no thought: one change to one file, offered beside what it mends.

Offered only where one change is plainly meant, clears the finding and asks for nobody's
taste. Paths lead into the files as the teacher wrote them. Codes that are mended so stand
in `other_codes`, places in `other_places`.
"""

from __future__ import annotations

from typing import Any

from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.choose.fitting import fit, lacking
from boxwright.game.arranged import Arranged, ArrangedGame, Sharing
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.model import Version
from boxwright.game.text_edit import can
from boxwright.game.uses import uses
from boxwright.problems import Edit, Step


def change(about: About, *path: Step, to: Any, role: str = GAME) -> Edit | None:
    """Return what sets `path` to `to` (None removes it); None where the file has no such place.

    A kit or room that lies elsewhere serves other games too, and is left alone.
    """
    file = about.folder.files.get(role)
    one = Edit(role, path, to)
    return one if file is not None and file.name == role and can(file.data, one) else None


def taken_out(about: About, section: str, id: str) -> Edit | None:
    """Return what takes a thing out, if nothing else in the game names it."""
    used = (path for _, path in uses(about.folder.files[GAME].data, id))
    return (
        None if any(path != (section, id) for path in used) else change(about, section, id, to=None)
    )


def ways_to(about: About, lock: str) -> tuple[Version, ...]:
    """Return every way that the file has for the clues to a lock, in play now or not."""
    clues = about.folder.game.clues.values()
    return tuple(way for one in clues if one.gives == lock for way in one.versions.values())


def is_enough(
    edition: Edition, folder: Folder, game: ArrangedGame, *, mended: str | None = None
) -> bool:
    """Tell whether no group goes without more than now, if things were as in `folder` and `game`.

    All is fitted anew, since another box or lock may come to another group then. What is
    `mended` must be there for every group.
    """
    now, then = edition.stickers.values(), fit(folder, Arranged((Sharing(game, edition.groups),)))
    known = {id for tags in now for id in lacking(edition.game, tags)} - {mended}
    return all(id in known for tags in then.stickers.values() for id in lacking(game, tags))
