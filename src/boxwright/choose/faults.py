"""What a game folder asks of kinds and locks that they do not have, with its place.

Runs with the reading of the folder, so that a misspelt kind and a misspelt box are
told together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from boxwright.choose.codes import code_problems, written_codes
from boxwright.choose.sheets import kind_at, read_options
from boxwright.game.draft import GAME, KIT, Draft
from boxwright.game.folder import Folder
from boxwright.game.mechanisms import device_of, entry
from boxwright.game.model import Version
from boxwright.problems import Path, Problem, Refused, Where

TOLD_OF_KIT = frozenset({"mechanism.fixed-unknown", "mechanism.code-unfixed"})
"""What the names' own check of the kit tells already."""


def choice_faults(draft: Draft) -> Iterator[Problem]:
    """Yield a Problem for each kind, option, lock or code that cannot be; for `read_game`."""
    yield from _lock_faults(draft)
    yield from _kit_faults(draft)
    for id, clue in draft.game.clues.items():
        lock = draft.game.locks.get(clue.gives)
        drawn = lock is not None and len(written_codes(lock.code)) != 1
        for name, version in clue.versions.items():
            path = ("clues", id, "versions", name)
            yield from _version_faults(draft, path, version, lock=clue.gives, drawn=drawn)


def _lock_faults(draft: Draft) -> Iterator[Problem]:
    for id, lock in draft.game.locks.items():
        where = draft.where(GAME, ("locks", id))
        try:
            device = device_of(lock, where)
        except Refused as refused:
            yield from (_placed(draft, GAME, one) for one in refused.problems)
        else:
            yield from code_problems(device, lock.code, draft.where(GAME, (*where.path, "code")))


def _kit_faults(draft: Draft) -> Iterator[Problem]:
    if draft.kit is None:
        return
    for tag, lock in draft.kit.locks.items():
        model = draft.kit.models.get(lock.model or "")
        if lock.model is not None and model is None:
            continue  # told by the names' own check
        where, model_where = (
            draft.where(KIT, ("locks", tag)),
            draft.where(KIT, ("models", lock.model or "")),
        )
        make = partial(device_of, lock, where, model=model, model_where=model_where)
        for one in _problems(make):
            if one.code not in TOLD_OF_KIT:
                yield _placed(draft, KIT, one)


def _placed(draft: Draft, role: str, problem: Problem) -> Problem:
    """Return a lock's problem with its line, which only the file knows."""
    return replace(problem, where=draft.where(role, problem.where.path))


def _version_faults(
    draft: Draft, path: Path, version: Version, *, lock: str, drawn: bool
) -> Iterator[Problem]:
    def at(under: Path) -> Where:
        return draft.where(GAME, (*path, *under))

    try:
        kind = kind_at(version.kind, at)
    except Refused as refused:
        yield from refused.problems
    else:
        yield from _problems(lambda: read_options(kind, version.options, at))
        if kind.FACTS.own and drawn:
            yield from own_drawn(draft, lock)


def own_drawn(draft: Draft | Folder, lock: str) -> Iterator[Problem]:
    """Yield the Problem that a page which is written by hand cannot follow a drawn code."""
    where = draft.where(GAME, ("locks", lock))
    try:
        device = device_of(draft.game.locks[lock], where)
    except Refused:
        return  # told with the lock
    yield Problem.of("code.own-drawn", where, lock=lock, example=entry(device).example(device))


def _problems(act: Callable[[], object]) -> tuple[Problem, ...]:
    try:
        act()
    except Refused as refused:
        return refused.problems
    return ()
