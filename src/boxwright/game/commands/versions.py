"""The ways to do a clue, and wishes for them under one name."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from boxwright.game.commands.adding import first_the_kind
from boxwright.game.commands.asked import Asked, WayAsked, given, held
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.commands.things import put, version_of
from boxwright.game.draft import GAME
from boxwright.game.model import Id, Level, Name
from boxwright.game.text_edit import changed
from boxwright.problems import Edit, Message, Problem, Where, refuse, say

OF_KIND = ("content", "options", "parts", "on")
"""What a version says to its kind alone."""


class VersionAdd(WayAsked):
    """Another way to do a clue; its id is made from `name`, the level or the kind."""

    clue: Id
    kind: Id
    name: Name | None = None


class VersionChange(WayAsked):
    """Fields of a version; None takes one away.

    Where it becomes of another kind, what only the old one understood goes with it.
    """

    clue: Id
    version: Id
    kind: Id | None = None


class VersionRemove(Asked):
    """A version that goes, with the wishes for it."""

    clue: Id
    version: Id


class VersionRename(Asked):
    """Another name for a version, wherever it is wished for; its id is made from `name`."""

    clue: Id
    version: Id
    name: Name


class ArrangementSet(Asked):
    """Wishes under one name; what the arrangement wished before goes."""

    arrangement: Id
    level: Level | None = None
    versions: Annotated[dict[Id, Id], Field(max_length=200)] | None = None


class ArrangementRemove(Asked):
    """Wishes that go."""

    arrangement: Id


def _add(desk: Desk, asked: VersionAdd) -> Message:
    if desk.section(asked.clue) != "clues":
        refuse(Problem.of("change.no-clue", Where(GAME), id=asked.clue))
    versions = desk.table(GAME, "clues", asked.clue, "versions")
    id = desk.fresh_id(asked.name or asked.level or asked.kind, asked.kind, versions)
    versions[id] = first_the_kind(held(asked, "clue", "name"))
    return say("change.version-added", id=id, clue=asked.clue)


def _change(desk: Desk, asked: VersionChange) -> Message:
    version = version_of(desk, asked.clue, asked.version)
    other_kind = asked.kind is not None and asked.kind != version.get("kind")
    if other_kind:
        put(version, dict.fromkeys(OF_KIND))
    put(version, given(asked, "clue", "version"))
    code = "change.version-kind" if other_kind else "change.version-changed"
    return say(code, id=asked.version, clue=asked.clue)


def _remove(desk: Desk, asked: VersionRemove) -> Message:
    version_of(desk, asked.clue, asked.version)
    versions = desk.table(GAME, "clues", asked.clue, "versions")
    if len(versions) == 1:
        refuse(Problem.of("change.last-version", Where(GAME), id=asked.version, clue=asked.clue))
    del versions[asked.version]
    arrangements = desk.data(GAME).get("arrangements", {})
    for arrangement in arrangements.values():
        wishes = arrangement.get("versions", {})
        if wishes.get(asked.clue) == asked.version:
            del wishes[asked.clue]
            put(arrangement, {"versions": wishes or None})
    return say("change.version-removed", id=asked.version, clue=asked.clue)


def _rename(desk: Desk, asked: VersionRename) -> Message:
    version_of(desk, asked.clue, asked.version)
    versions = desk.table(GAME, "clues", asked.clue, "versions")
    others = [name for name in versions if name != asked.version]
    new = desk.fresh_id(asked.name, asked.version, others)
    if new != asked.version:
        desk.put_text(GAME, _renamed(desk, asked, new))
    return say("change.version-renamed", id=new, old=asked.version, clue=asked.clue)


def _renamed(desk: Desk, asked: VersionRename, new: str) -> str:
    """Return the game file's text with a version under another name, remarks and order kept."""
    path = ("clues", asked.clue, "versions", asked.version)
    text = changed(desk.file(GAME).text, Edit(GAME, path, key=new))
    for id, arrangement in desk.table(GAME, "arrangements").items():
        if arrangement.get("versions", {}).get(asked.clue) == asked.version:
            wish = ("arrangements", id, "versions", asked.clue)
            text = changed(text, Edit(GAME, wish, new))
    return text


def _arrange(desk: Desk, asked: ArrangementSet) -> Message:
    table = desk.table(GAME, "arrangements", asked.arrangement)
    put(table, {"level": asked.level, "versions": dict(asked.versions or {}) or None})
    return say("change.arrangement-set", id=asked.arrangement)


def _disarrange(desk: Desk, asked: ArrangementRemove) -> Message:
    if desk.table(GAME, "arrangements").pop(asked.arrangement, None) is None:
        choices = tuple(desk.table(GAME, "arrangements")) or (say("game.none-yet"),)
        where = Where(GAME)
        refuse(Problem.of("change.no-arrangement", where, id=asked.arrangement, choices=choices))
    return say("change.arrangement-removed", id=asked.arrangement)


COMMANDS = (
    Command("version.add", VersionAdd, _add),
    Command("version.change", VersionChange, _change),
    Command("version.remove", VersionRemove, _remove),
    Command("version.rename", VersionRename, _rename),
    Command("arrangement.set", ArrangementSet, _arrange),
    Command("arrangement.remove", ArrangementRemove, _disarrange),
)
