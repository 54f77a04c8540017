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
        ats = _places(about, part, getattr(edition.game.story, part))
        for at, text in zip(ats, getattr(edition.game.story, part), strict=True):
            yield Read(("story", part, *at), text)


def _places(about: About, part: str, paragraphs: tuple[str, ...]) -> list[Path]:
    """Return the place of each paragraph; that of the part where some are not told."""
    in_file = getattr(about.folder.game.story, part)
    same = len(in_file) == len(paragraphs)
    return [(at,) if same else () for at in range(len(paragraphs))]


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
