"""Every text that pupils read, with its place: the story, names, hints and sheets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from boxwright.checks import About
from boxwright.checks.sheets import Opened, opened
from boxwright.choose.edition import Edition
from boxwright.messages import words
from boxwright.problems import Path, plain

TOLD = ("opening", "closing", "unfinished")


class Read(NamedTuple):
    """A text that pupils read, and its place; `clue` where it is of a sheet that we made."""

    path: Path
    text: str
    clue: str | None = None


def written(edition: Edition, about: About) -> Iterator[Read]:
    """Yield what the teacher wrote: title, story and names."""
    game = edition.game
    yield Read(("game", "title"), game.title)
    yield from told(edition, about)
    for sort in ("boxes", "items"):
        for id, thing in getattr(game, sort).items():
            yield Read((sort, id, "name"), thing.name)


def told(edition: Edition, about: About) -> Iterator[Read]:
    """Yield the paragraphs of the story that are told in this game."""
    for part in TOLD:
        texts = getattr(edition.game.story, part)
        ats = _places(edition, about, part, len(texts))
        for at, text in zip(ats, texts, strict=True):
            yield Read(("story", part, *at), text)


def _places(edition: Edition, about: About, part: str, count: int) -> list[Path]:
    """Return the place of each paragraph that is told; that of the part where that is unsure."""
    game, room = edition.game, about.folder.room
    there = {*game.boxes, *game.locks, *game.items, *game.clues}
    there |= set(room.places) if room is not None else set()
    in_file = getattr(about.folder.game.story, part)
    told_of = [at for at, one in enumerate(in_file) if isinstance(one, str) or one.when in there]
    return [(at,) for at in told_of] if len(told_of) == count else [()] * count


def hinted(edition: Edition, about: About) -> Iterator[Read]:
    """Yield the hints that groups get: the teacher's own, or those made for the sheet."""
    for one in opened(edition, about):
        clue = edition.game.clues[one.clue]
        if clue.hints is not None:
            for at, hint in enumerate(clue.hints):
                yield Read((*clue.source.path, "hints", at), hint)
        else:
            for hint in one.hints(edition.game.language):
                yield Read(clue.source.path, hint, one.clue)


def printed(edition: Edition, about: About) -> Iterator[Read]:
    """Yield what stands on pupils' sheets: sentences, what is said of pictures, the body.

    The body of a sheet whose kind prints the code's symbols by design is left out. Bare
    numbers are facts of the puzzle (or measures), not text.
    """
    for one in opened(edition, about):
        for part in one.pupil_parts():
            for text in _of_part(one, part, edition.game.language):
                yield Read(edition.game.clues[one.clue].source.path, text, one.clue)


def _of_part(one: Opened, part: str, language: str) -> Iterator[str]:
    yield from one.texts(part, language).values()
    yield words(one.kind.describe(one.sheet, part), language)
    if not one.kind.FACTS.prints_symbols:
        yield from _strings(plain(one.body(part)))


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner)
