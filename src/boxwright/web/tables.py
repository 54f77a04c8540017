"""The tables of a game's folder, remembered: as they lie there, and as clues draw on them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boxwright.content.lesson import asked_of
from boxwright.content.listing import Listed
from boxwright.content.listing import tables_of as listed_tables
from boxwright.content.tables import Content
from boxwright.game.draft import GAME
from boxwright.game.toml_file import read_toml
from boxwright.problems import Problem, say
from boxwright.web.game import Game
from boxwright.web.render import told


def tables_of(game: Game) -> tuple[Listed, ...]:
    """Return every table in content/, also of a game whose files have faults."""
    key = ("tables", game.path, game.tag)
    return game.studio.memory.recall(key, lambda: listed_tables(game.path, _raw(game)))


def _raw(game: Game) -> Mapping[str, Any]:
    """Return what game.toml says; nothing where it cannot be read."""
    found = read_toml(game.path / GAME, GAME)
    return {} if isinstance(found, Problem) else found.data


def contents_of(game: Game) -> Mapping[str, Content]:
    """Return the good tables by their files, as sheets draw on them: words asked for as well."""
    language = game.folder.game.game.language
    key = ("contents", game.path, game.tag)
    return game.studio.memory.recall(key, lambda: _contents(tables_of(game), language))


def _contents(tables: tuple[Listed, ...], language: str) -> dict[str, Content]:
    return {one.name: asked_of(one.content, language) for one in tables if one.content is not None}


def choices_of_tables(game: Game) -> list[tuple[str, str]]:
    """Return the files in content/, each with what sort of table it is, in words."""
    return [(one.name, _said(one)) for one in tables_of(game)]


def _said(one: Listed) -> str:
    if one.sort is None:
        return one.name
    table = say(f"page-clues.table-{one.sort}")
    return told(say("page-clues.table-file", file=one.name, table=table))
