"""The story as it is read aloud, changed paragraph by paragraph; goals, questions, the head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse
from pydantic import Field

from boxwright.game.arrange import arrange
from boxwright.game.arranged import Arranged
from boxwright.game.folder import Folder
from boxwright.game.model import Text, When
from boxwright.game.telling import Piece, groups_with, name_of, nameable, text_faults, told
from boxwright.problems import Message
from boxwright.web.game import Game, TheGame
from boxwright.web.render import fragment, page
from boxwright.web.sent import Sent

router = APIRouter()

PARTS = ("opening", "closing", "unfinished")


class Written(Sent):
    """A text while it is being written."""

    text: Annotated[str, Field(max_length=4000)]


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph: as written, as told, and where it is told only there, for whom.

    `groups` is None where it is not known who plays with what.
    """

    raw: str
    pieces: tuple[Piece, ...]
    when: str | None = None
    name: str | None = None
    groups: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the story; `aloud` says how long the first takes to be read aloud."""

    name: str
    paragraphs: tuple[Paragraph, ...]
    aloud: Message | None


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the story."""
    folder = game.folder
    arranged = _arranged(game)
    parts = [_part(folder, arranged, name) for name in PARTS]
    values = {"game": game, "file": folder.game, "parts": parts, **_choices(folder)}
    return page(request, "story", values | {"groups": arranged.groups if arranged else ()})


@router.post("/told", response_class=HTMLResponse)
def tell(game: TheGame, asked: Written) -> HTMLResponse:
    """Return a text as it will be told, and what is wrong with the names in it."""
    folder = game.folder
    values = {"pieces": told(folder, asked.text), "problems": text_faults(folder, asked.text)}
    return HTMLResponse(fragment("story_told.html", values))


def _arranged(game: Game) -> Arranged | None:
    """Return the game as wished; None where it cannot be had so, which other pages tell."""
    found = arrange(game.folder, game.wishes)
    return found if isinstance(found, Arranged) else None


def _part(folder: Folder, arranged: Arranged | None, name: str) -> Part:
    written: Sequence[Text | When] = getattr(folder.game.story, name)
    paragraphs = tuple(_paragraph(folder, arranged, one) for one in written)
    heard = arranged.games[0].game.story.opening if arranged and name == "opening" else ()
    return Part(name, paragraphs, _aloud(heard) if heard else None)


def _aloud(heard: Sequence[str]) -> Message:
    from boxwright.paper.outs.story import aloud  # late: it brings the print-outs along

    return aloud(heard)


def _paragraph(folder: Folder, arranged: Arranged | None, one: str | When) -> Paragraph:
    if isinstance(one, str):
        return Paragraph(one, told(folder, one))
    groups = None if arranged is None else groups_with(arranged, folder, one.when)
    return Paragraph(one.text, told(folder, one.text), one.when, name_of(folder, one.when), groups)


def _choices(folder: Folder) -> dict[str, Any]:
    """Return what a text can name, and on what a paragraph can depend."""
    game = folder.game
    tables: tuple[Any, ...] = (game.boxes, game.locks, game.items, game.clues)
    optional = [id for table in tables for id, thing in table.items() if thing.optional]
    told_of = [one.when for name in PARTS for one in getattr(game.story, name) if _depends(one)]
    places = list(folder.room.places) if folder.room is not None else []
    whens = dict.fromkeys([*optional, *told_of, *places])
    return {
        "names": list(nameable(folder)),
        "whens": [(id, name_of(folder, id)) for id in whens],
        "asks": [told(folder, one.ask) for one in game.story.debrief],
        "written": game.story.model_dump(mode="json", exclude_none=True),
    }


def _depends(one: Text | When) -> bool:
    return isinstance(one, When)
