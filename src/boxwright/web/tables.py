"""The tables of a game's folder, for choices on pages: each file, and what sort of table it is."""

from __future__ import annotations

from collections.abc import Mapping

from boxwright.content.read import read_content
from boxwright.content.tables import Content
from boxwright.game.folder import Folder
from boxwright.problems import Where
from boxwright.web.game import Game

UNREAD = ""


def tables_of(game: Game) -> Mapping[str, str]:
    """Return what each file in content/ is; `UNREAD` where it cannot be told."""
    key = ("tables", game.path, game.tag)
    return game.studio.memory.recall(key, lambda: _tables(game.folder))


def _tables(folder: Folder) -> dict[str, str]:
    names = sorted(file.name for file in (folder.path / "content").glob("*.csv"))
    read = {name: read_content(folder.path, name, Where(name)) for name in names}
    return {
        name: next(iter(found.tables), UNREAD) if isinstance(found, Content) else UNREAD
        for name, found in read.items()
    }
