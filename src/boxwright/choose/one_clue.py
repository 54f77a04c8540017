"""One clue as it might be: of another kind or level, with other options, code or dice.

The rest of the game stays as it is, so that the code and the sheet are those of the printed
set that would be made of it. Nothing is written.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field, replace
from functools import partial
from typing import Any

from boxwright.choose.asking import Contents, read_contents
from boxwright.choose.chance import Chance
from boxwright.choose.codes import can_have, code_problems, words_for, written_codes
from boxwright.choose.drawing import draw_codes
from boxwright.choose.edition import Edition
from boxwright.choose.faults import own_drawn
from boxwright.choose.fitting import Fitted, fit
from boxwright.choose.hardware import wanted_device
from boxwright.choose.making import hosts_first, make_edition, redrawing
from boxwright.choose.sheets import kind_at
from boxwright.content.lesson import asked_of
from boxwright.content.read import read_content
from boxwright.content.tables import Content
from boxwright.frozen import frozen_value
from boxwright.game.arrange import Wishes, arrange
from boxwright.game.arranged import Arranged, ArrangedGame, Sharing
from boxwright.game.choosing import level_for
from boxwright.game.draft import GAME
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import Code, Device, entry
from boxwright.game.model import Level, Version
from boxwright.game.placeholders import filled, names_in
from boxwright.game.telling import name_of
from boxwright.game.union_faults import frozen
from boxwright.problems import Path, Problem, Refused, Where


@frozen_value
class Trial:
    """How a clue is to be tried.

    `code` is what its lock is to say of its code, and `throw` how often its sheet was thrown
    anew; None for both: as they are.
    """

    kind: str
    level: Level | None = None
    content: str | Mapping[str, str] | None = None
    options: Mapping[str, Any] = field(default_factory=dict)
    hints: tuple[str, str, str] | None = None
    code: str | None = None
    throw: int | None = None

    @classmethod
    def of(cls, version: Version) -> Trial:
        """Return the trial of a version as it stands in the game."""
        return cls(version.kind, version.level, version.content, version.options, version.hints)


@frozen_value
class Bench:
    """A game in which one clue is in play, and the way of it that is tried."""

    folder: Folder
    arranged: Arranged
    contents: Contents
    clue: str
    way: str
    wished: Level

    @property
    def path(self) -> Path:
        """Where the way stands in the game file."""
        return ("clues", self.clue, "versions", self.way)

    @property
    def share(self) -> Sharing:
        """The first groups' game that has the clue."""
        return next(one for one in self.arranged.games if self.clue in one.game.clues)

    @property
    def lock(self) -> str | None:
        """The lock whose code the clue gives, if it gives one."""
        gives = self.share.game.clues[self.clue].gives
        return gives if gives in self.share.game.locks else None


def bench(folder: Folder, wishes: Wishes, clue: str, way: str) -> Bench:
    """Return the game in which `clue` can be tried; raises Refused where there is none.

    A way that this room or kit bars can be tried all the same, in the game as it is without
    it; a clue that is not in play, with a version that brings it in.
    """
    arranged = _arranged(folder, wishes, clue, way)
    contents = read_contents(folder, arranged)
    return Bench(folder, arranged, contents, clue, way, level_for(folder, wishes, "1"))


def _arranged(folder: Folder, wishes: Wishes, clue: str, way: str) -> Arranged:
    problems: list[Problem] = []
    for one in _likely(folder, wishes, clue, way):
        found = arrange(folder, one)
        if not isinstance(found, Arranged):
            problems += found
        elif any(clue in share.game.clues for share in found.games):
            return found
    where = folder.where(GAME, ("clues", clue))
    raise Refused(problems or [Problem.of("clue.never-in-play", where, clue=clue)])


def _likely(folder: Folder, wishes: Wishes, clue: str, way: str) -> Iterator[Wishes]:
    """Yield wishes under which `clue` may be in play, the likeliest first."""
    yield replace(wishes, versions={**wishes.versions, clue: way})
    yield wishes
    for other, one in folder.game.clues.items():
        for name, version in one.versions.items():
            if clue in version.adds:
                yield replace(wishes, versions={**wishes.versions, other: name})


def tried(bench: Bench, trial: Trial, chance: Chance) -> Edition:
    """Return the printed set as it would be, with the sheet of this clue (and its hosts) alone.

    Raises Refused with everything that keeps the code or the sheet from being made; the
    places are those of the clue's version in the game file.
    """
    folder, content = bench.folder, _content(bench, trial)
    arranged = _changed(bench, trial)
    _refuse_codes(bench, trial, arranged)
    fitted = fit(folder, arranged)
    contents = {**bench.contents, (bench.clue, bench.way): content}
    share = replace(bench, arranged=arranged).share
    if trial.throw is not None:
        chance = replace(chance, throws={**chance.throws, bench.clue: trial.throw})

    def made(now: Chance) -> Edition:
        codes = _codes(bench, arranged, fitted, contents, now)
        _refuse_unshown(bench, fitted.devices[share.groups[0]], codes)
        return make_edition(folder, share, fitted, codes, contents, now, only=bench.clue)

    return redrawing(arranged, chance, made)


def _content(bench: Bench, trial: Trial) -> Content:
    where = bench.folder.where(GAME, (*bench.path, "content"))
    content = read_content(bench.folder.path, trial.content, where)
    if not isinstance(content, Content):
        raise Refused(content)
    return asked_of(content, bench.folder.game.game.language)


def _changed(bench: Bench, trial: Trial) -> Arranged:
    """Return all games with the clue, and its lock's code, as they are tried."""
    games = (
        replace(share, game=_changed_game(bench, trial, share.game))
        for share in bench.arranged.games
    )
    return Arranged(tuple(games))


def _changed_game(bench: Bench, trial: Trial, game: ArrangedGame) -> ArrangedGame:
    if bench.clue not in game.clues:
        return game
    clue = replace(
        game.clues[bench.clue],
        kind=trial.kind,
        level=trial.level or bench.wished,
        content=trial.content,
        options=frozen(trial.options),
        hints=_hints(bench, trial, game),
        way=bench.way,
        source=bench.folder.where(GAME, bench.path),
    )
    locks = dict(game.locks)
    if trial.code is not None and clue.gives in locks:
        locks[clue.gives] = replace(locks[clue.gives], code=trial.code)
    return replace(game, clues={**game.clues, bench.clue: clue}, locks=locks)


def _hints(bench: Bench, trial: Trial, game: ArrangedGame) -> tuple[str, str, str] | None:
    """Return the own hints, names filled in; raises Refused where a name is of nothing in play."""
    if trial.hints is None:
        return None
    folder, room = bench.folder, bench.folder.room
    things = {*game.boxes, *game.locks, *game.items, *game.clues}
    known = things | (set(room.places) if room is not None else set())
    problems = [
        Problem.of("arrange.text-absent", folder.where(GAME, (*bench.path, "hints", at)), id=id)
        for at, hint in enumerate(trial.hints)
        for id in names_in(hint)
        if id not in known
    ]
    if problems:
        raise Refused(problems)
    first, second, third = (filled(one, partial(name_of, folder)) for one in trial.hints)
    return first, second, third


def _refuse_codes(bench: Bench, trial: Trial, arranged: Arranged) -> None:
    """Raise Refused where the code cannot be read, or a page written by hand cannot follow it."""
    folder, lock = bench.folder, bench.lock
    if lock is None:
        return
    wish = replace(bench, arranged=arranged).share.game.locks[lock]
    where = folder.where(GAME, ("locks", lock, "code"))
    problems = list(code_problems(wanted_device(folder, lock, wish), wish.code, where))

    def at(under: Path) -> Where:
        return folder.where(GAME, (*bench.path, *under))

    if kind_at(trial.kind, at).FACTS.own and len(written_codes(wish.code)) != 1:
        problems += own_drawn(folder, lock)
    if problems:
        raise Refused(problems)


def _refuse_unshown(bench: Bench, devices: Mapping[str, Device], codes: Mapping[str, Code]) -> None:
    """Raise Refused where the clue's lock cannot show its code, naming what it lacks."""
    lock, folder = bench.lock, bench.folder
    if lock is None or lock not in codes or can_have(devices[lock], codes[lock]):
        return
    device, where = devices[lock], folder.where(GAME, ("locks", lock, "code"))
    words = words_for(device, folder.game.game.language)
    problem = entry(device).shows(device, codes[lock], where, words)
    if problem is not None:
        raise Refused([problem])


def _codes(
    bench: Bench, arranged: Arranged, fitted: Fitted, contents: Contents, chance: Chance
) -> Mapping[str, Code]:
    """Return the codes that the clue and its hosts lead to, whatever bars another clue's."""
    alone = Arranged(tuple(_alone(bench, share) for share in arranged.games))
    locks = {id for share in alone.games for id in share.game.locks}
    try:
        return draw_codes(bench.folder, arranged, fitted, contents, chance, only=locks)
    except Refused:
        return draw_codes(bench.folder, alone, fitted, contents, chance)


def _alone(bench: Bench, share: Sharing) -> Sharing:
    """Return a game with nothing to solve but the clue and those whose sheets it is drawn on."""
    game = share.game
    here = tuple(hosts_first(game, bench.clue)) if bench.clue in game.clues else ()
    clues = {id: game.clues[id] for id in here}
    wanted = {clue.gives for clue in clues.values()}
    locks = {id: lock for id, lock in game.locks.items() if id in wanted}
    return replace(share, game=replace(game, clues=clues, locks=locks))
