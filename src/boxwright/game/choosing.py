"""Which version of each clue a group gets: its wishes held against room and kit.

A later wish goes before an earlier one: an arrangement, then a level, then a version
named for a clue. A level takes the allowed version nearest to it, the easier on a tie,
then the first in the file. A version named outright must be allowed, else a Problem.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field

from boxwright.frozen import frozen_value
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.model import LEVELS, Clue, Level, Version
from boxwright.problems import Arg, Message, Path, Problem, Where, say
from boxwright.text import nearest

DEFAULT_LEVEL: Level = "ordinary"


@frozen_value
class Wishes:
    """What a teacher asked for; nothing asked means every default.

    `level` is for all groups, `levels` for single ones ("1", "2", …); `versions` maps
    clues to versions for all groups; `groups` None means the fewest that the game takes.
    """

    arrangement: str | None = None
    level: Level | None = None
    levels: Mapping[str, Level] = field(default_factory=dict)
    versions: Mapping[str, str] = field(default_factory=dict)
    groups: int | None = None


@frozen_value
class Chosen:
    """One version of a clue, and the level at which it is made."""

    clue: str
    name: str
    version: Version
    level: Level

    @property
    def path(self) -> Path:
        """Where it stands in game.toml."""
        return ("clues", self.clue, "versions", self.name)


@frozen_value
class _Asked:
    """The wishes for one group, settled: a level for all clues, versions for some."""

    level: Level | None
    versions: Mapping[str, str]


def group_names(folder: Folder, wishes: Wishes) -> tuple[str, ...] | Problem:
    """Return the groups' names, or why there cannot be so many."""
    fewest, most = folder.game.game.groups
    count = fewest if wishes.groups is None else wishes.groups
    if not fewest <= count <= most:
        where = folder.where(GAME, ("game", "groups"))
        return Problem.of("arrange.group-count", where, n=count, fewest=fewest, most=most)
    return tuple(str(number + 1) for number in range(count))


def wish_faults(folder: Folder, wishes: Wishes, groups: Iterable[str]) -> Iterator[Problem]:
    """Yield a Problem for each wish that names what this game does not have."""
    game, groups = folder.game, tuple(groups)
    if wishes.arrangement is not None and wishes.arrangement not in game.arrangements:
        where = folder.where(GAME, ("arrangements",))
        yield _no_such(
            "arrange.no-arrangement", where, wishes.arrangement, tuple(game.arrangements)
        )
    for group in wishes.levels:
        if group not in groups:
            where = folder.where(GAME, ("game", "groups"))
            yield Problem.of("arrange.no-group", where, name=group, choices=groups)
    for clue, version in wishes.versions.items():
        if clue not in game.clues:
            yield _no_such(
                "arrange.no-clue", folder.where(GAME, ("clues",)), clue, tuple(game.clues)
            )
        elif version not in game.clues[clue].versions:
            where = folder.where(GAME, ("clues", clue))
            known = tuple(game.clues[clue].versions)
            yield _no_such("arrange.no-version", where, version, known, clue=clue)


def _no_such(code: str, where: Where, name: str, known: tuple[str, ...], clue: str = "") -> Problem:
    choices: tuple[Arg, ...] = known or (say("arrange.none"),)
    near = nearest(name.lower(), known)
    code = code if near is None else f"{code}-but"
    return Problem.of(code, where, name=name, choices=choices, clue=clue, near=near or "")


def choose(folder: Folder, wishes: Wishes, group: str) -> tuple[dict[str, Chosen], list[Problem]]:
    """Return the version of each clue for `group`, and a Problem for each clue without one."""
    asked = _asked(folder, wishes, group)
    chosen: dict[str, Chosen] = {}
    problems: list[Problem] = []
    for id, clue in folder.game.clues.items():
        one = _version(folder, id, clue, asked)
        if isinstance(one, Problem):
            problems.append(one)
        else:
            chosen[id] = one
    return chosen, problems


def level_for(folder: Folder, wishes: Wishes, group: str) -> Level:
    """Return the level at which `group` does the ways that have none of their own."""
    return _asked(folder, wishes, group).level or DEFAULT_LEVEL


def _asked(folder: Folder, wishes: Wishes, group: str) -> _Asked:
    level = wishes.levels.get(group, wishes.level)
    if level is not None or wishes.arrangement is None:
        return _Asked(level, wishes.versions)
    arrangement = folder.game.arrangements[wishes.arrangement]
    return _Asked(arrangement.level, {**arrangement.versions, **wishes.versions})


def _version(folder: Folder, id: str, clue: Clue, asked: _Asked) -> Chosen | Problem:
    level = asked.level or DEFAULT_LEVEL
    allowed = {name: one for name, one in clue.versions.items() if not _bars(folder, one)}
    near = _nearest_level(allowed, level)
    name = asked.versions.get(id, near)
    if name is None:
        where = folder.where(GAME, ("clues", id, "versions"))
        reasons = tuple(
            say("arrange.reason", name=one, why=_bars(folder, version))
            for one, version in clue.versions.items()
        )
        return Problem.of("arrange.no-version-here", where, clue=id, reasons=reasons)
    version = clue.versions[name]
    if name not in allowed:
        return _barred(folder, Chosen(id, name, version, level), near)
    return Chosen(id, name, version, version.level or level)


def _barred(folder: Folder, wanted: Chosen, near: str | None) -> Problem:
    where, why = folder.where(GAME, wanted.path), _bars(folder, wanted.version)
    if near is None:
        return Problem.of("arrange.not-here", where, name=wanted.name, clue=wanted.clue, why=why)
    return Problem.of(
        "arrange.not-here-but", where, name=wanted.name, clue=wanted.clue, why=why, near=near
    )


def _nearest_level(versions: Mapping[str, Version], wished: Level) -> str | None:
    aim = LEVELS.index(wished)

    def far(name: str) -> tuple[int, int]:
        level = LEVELS.index(versions[name].level or wished)
        return abs(level - aim), level

    return min(versions, key=far, default=None)


def _bars(folder: Folder, version: Version) -> tuple[Message, ...]:
    """Return why this room or kit does not do for `version`; nothing where it does."""
    return (*_room_bars(folder, version), *_kit_bars(folder, version))


def _room_bars(folder: Folder, version: Version) -> Iterator[Message]:
    if folder.room is None:
        if version.rooms or version.facilities:
            yield say("arrange.bar.no-room")
        return
    head = folder.room.room
    if version.rooms and head.setting not in version.rooms:
        yield say("arrange.bar.setting", has=head.setting, wanted=version.rooms)
    lacks = tuple(one for one in version.facilities if one not in head.facilities)
    if lacks:
        yield say("arrange.bar.facilities", lacks=lacks)


def _kit_bars(folder: Folder, version: Version) -> Iterator[Message]:
    if folder.kit is None:
        return
    has = {tool.is_ for tool in folder.kit.tools.values()}
    items = (folder.game.items.get(id) for id in (*version.needs, *version.adds))
    wanted = dict.fromkeys(item.tool for item in items if item is not None and item.tool)
    lacks = tuple(tool for tool in wanted if tool not in has)
    if lacks:
        yield say("arrange.bar.tools", lacks=lacks)
