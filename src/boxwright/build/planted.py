"""A mistake planted in a copy of a game, what the checks say of it, and what they say when mended.

Nothing here says what will be found: the copy is built and checked like any game, and what
the game's own findings do not have is what the mistake did.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path as File
from typing import Any

from boxwright.build import Asked, Built, build
from boxwright.choose.store import copy_game
from boxwright.frozen import frozen_value
from boxwright.game.commands import perform
from boxwright.game.history import History
from boxwright.problems import Finding, Message

Change = tuple[str, Mapping[str, Any]]


@frozen_value
class Mistake:
    """A change for the worse, by a command; and the change that follows a finding's remedy."""

    plant: Change
    mend: Callable[[Finding], Change]


@frozen_value
class Done:
    """A change that was made, and the value that it set, if it set one."""

    what: Message
    value: str


@frozen_value
class Planted:
    """A game with a mistake in it, or with that mended: what was done, and what it led to."""

    built: Built
    done: tuple[Done, ...]
    found: tuple[Finding, ...]


def _near_word(finding: Finding) -> Change:
    """Return the change to the first of the words that the remedy names."""
    near = finding.problem.remedy.args["near"]
    assert isinstance(near, Message)
    codes = near.args["codes"]
    assert isinstance(codes, tuple)
    return "thing.set", {"id": "water", "field": "code", "value": codes[0]}


MISTAKES: Mapping[str, Mistake] = {
    "word": Mistake(
        ("thing.set", {"id": "water", "field": "code", "value": "COG"}),
        _near_word,
    ),
    "ring": Mistake(
        ("thing.move", {"id": "flour-sacks", "to": "case"}),
        lambda _: ("thing.move", {"id": "flour-sacks", "to": "start"}),
    ),
}
"""What can be planted in the example game, by name."""


def planted(game: File, mistake: Mistake, *, mended: bool) -> Planted:
    """Return what becomes of a copy of `game` with a mistake in it; the game stays as it is."""
    usual = {one.id for one in build(Asked(game)).findings}
    with _copy(game) as copy:
        done = [_do(copy, mistake.plant)]
        built, found = _judged(copy, usual)
        if mended and found:
            done.append(_do(copy, mistake.mend(found[0])))
            built, found = _judged(copy, usual)
    return Planted(built, tuple(done), found)


def _judged(copy: File, usual: set[str]) -> tuple[Built, tuple[Finding, ...]]:
    built = build(Asked(copy))
    fresh = (one for one in built.findings if one.severity != "note")
    return built, tuple(one for one in fresh if one.id not in usual)


def _do(copy: File, change: Change) -> Done:
    """Make one change by its command, and return what it is called."""
    history = History(copy)
    name, args = change
    moment = perform(history, name, args, history.now().tag)
    assert moment.undo is not None
    return Done(moment.undo, args.get("value", ""))


@contextmanager
def _copy(game: File) -> Iterator[File]:
    with tempfile.TemporaryDirectory(prefix="boxwright-") as folder:
        copy = File(folder) / game.name
        copy_game(game, copy)
        yield copy
