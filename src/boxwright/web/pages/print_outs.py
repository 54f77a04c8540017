"""The print-outs: every page as it will print, the printed set behind them, how to take them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, HTTPException, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, Field

from boxwright.build import Asked, Built, build
from boxwright.build.current import keep, last_asked, thrown_again
from boxwright.build.printing import put_into
from boxwright.game.archive import zipped
from boxwright.game.choosing import Wishes
from boxwright.game.model import Level
from boxwright.paper.frame import PAPERS, PaperName, size_for
from boxwright.paper.printouts import PrintOut
from boxwright.problems import Problem, Refused, gravest_first, say
from boxwright.web.files import file_answer
from boxwright.web.game import Game, TheGame
from boxwright.web.press import pressed
from boxwright.web.print_room import (
    OUT,
    Hands,
    Look,
    PrintSize,
    built_of,
    laid_out,
    named,
    pack,
    ready,
    set_of,
    tray_of,
)
from boxwright.web.render import file_words, fragment, page, told
from boxwright.web.sent import Said, Sent

router = APIRouter()

SMALL, LARGE = 320, 1240
MOST_STOPS = 7
HANDS = ("pupils", "teacher", "office")
FOLDER = r"^[^\x00-\x1f]*[^\s\x00-\x1f][^\x00-\x1f]*$"  # signs that are seen, one at least
# The address of a picture has a digest in it.
KEPT = {"Cache-Control": "private, max-age=86400, immutable"}  # not read by people


def look(
    paper: Annotated[PaperName, Query()] = "a4", size: Annotated[PrintSize, Query()] = "age"
) -> Look:
    """Return the look that an address asks for."""
    return Look(paper, size)


TheLook = Annotated[Look, Depends(look)]
Name = Annotated[str, Query(max_length=120)]


class Make(Sent):
    """What printed set is to be made: how many tables, who is at each, which codes."""

    groups: Annotated[int, Field(ge=1, le=99)] | None = None
    levels: Annotated[
        dict[Annotated[str, Field(max_length=2)], Level],
        Field(max_length=99, default_factory=dict),
    ]
    arrangement: Annotated[str, Field(max_length=40)] | None = None
    new: bool = False


class Again(Sent):
    """For which clue another sheet is wanted."""

    clue: Annotated[str, Field(max_length=40)]


class Save(Sent):
    """Into which folder, from the game's own where it is no whole path."""

    folder: Annotated[str, Field(max_length=400, pattern=FOLDER)]
    paper: PaperName = "a4"
    size: PrintSize = "age"


class Progress(BaseModel):
    """How many files are laid out, and of how many."""

    done: int
    of: int


# The page, and its pieces that take a while.


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame, look: TheLook) -> HTMLResponse:
    """Show how the printed set stands; the pages themselves are asked for by the script."""
    found = set_of(game)
    asked = game.wishes if game.wishes != Wishes() else found.wishes
    values = {
        "game": game,
        "set": found,
        "look": look,
        "groups": found.groups,
        "changed": tuple(map(file_words, found.changed)),
        "kept_ways": tuple(asked.versions),
        "wishes": asked,
        "other_wishes": asked != found.wishes,
        "game_groups": game.folder.game.game.groups,
        "arrangements": _pairs(game.folder.game.arrangements),
        "clues": _pairs(found.clues),
        "own_size": size_for(game.folder.game.game.ages),
        "folder": str(game.path / OUT),
    }
    return page(request, "print_outs", values)


def _pairs(ids: Iterable[str]) -> list[tuple[str, str]]:
    return [(id, id) for id in ids]


@router.get("/pages", response_class=HTMLResponse)
async def pages(game: TheGame, look: TheLook) -> HTMLResponse:
    """Return every page as a small picture, under whose hands it goes into."""
    return HTMLResponse(
        await pressed(lambda: _pages(game, look)), headers={"Cache-Control": "no-store"}
    )


def _pages(game: Game, look: Look) -> str:
    values: dict[str, Any] = {
        "game": game,
        "look": look,
        "problems": (),
        "stops": (),
        "shelves": (),
    }
    try:
        found, built = laid_out(game, look), built_of(game)
    except Refused as refused:
        return fragment("print_outs_pages.html", values | {"problems": refused.problems})
    if built is None:
        return ""
    values |= {
        "stops": _stops(built),
        "shelves": [(hands, [one for one in found if one.hands == hands]) for hands in HANDS],
        "several": len(built.editions) > 1,
        "ready": set_of(game).state == "now",
        "high": round(SMALL * PAPERS[look.paper][1] / PAPERS[look.paper][0]),
        "wide": SMALL,
        "picture": lambda one, at, wide: _picture_address(game, look, one, at, wide),
        "pdf": lambda **which: _address(game, look, "pdf", **which),
    }
    return fragment("print_outs_pages.html", values)


def _stops(built: Built) -> tuple[Problem, ...]:
    found = gravest_first(built.findings)
    return tuple(one.problem for one in found if one.severity == "stop")[:MOST_STOPS]


@router.get("/progress")
def progress(game: TheGame, look: TheLook) -> Progress:
    """Return how far the pages are."""
    tray = tray_of(game, look)
    return Progress(done=tray.done, of=tray.files)


@router.get("/picture", response_class=Response)
async def picture(
    game: TheGame,
    look: TheLook,
    file: Name,
    at: Annotated[int, Query(ge=1, le=999)],
    of: Name,
    wide: bool = False,
) -> Response:
    """Return page `at` of a file, as a picture; 404 where the file is not `of` that digest."""

    def drawn() -> bytes:
        one = named(laid_out(game, look), file)
        if not one.sha256.startswith(of):
            raise HTTPException(404)
        try:
            return tray_of(game, look).picture(one, at - 1, LARGE if wide else SMALL)
        except IndexError:
            raise HTTPException(404) from None

    return Response(await pressed(drawn), media_type="image/png", headers=KEPT)


# Taking them.


@router.get("/pdf", response_class=Response)
async def pdf(
    game: TheGame, look: TheLook, file: Name | None = None, hands: Hands | None = None
) -> Response:
    """Return one file as PDF, or all that goes into somebody's hands as one."""

    def taken() -> tuple[str, bytes]:
        files = ready(game, look)
        if file is not None:
            one = named(files.values(), file)
            return next(name for name, other in files.items() if other is one), one.pdf
        found = [one for one in files.values() if hands in (None, one.hands)]
        return pack(game, found, hands)

    name, data = await pressed(taken)
    return file_answer(name, data, "application/pdf", "inline")


@router.get("/zip", response_class=Response)
async def archive(game: TheGame, look: TheLook) -> Response:
    """Return all files in one archive."""

    def packed() -> bytes:
        return zipped({name: one.pdf for name, one in ready(game, look).items()})

    data = await pressed(packed)
    return file_answer(f"{game.folder.game.game.id}-{OUT}.zip", data, "application/zip")


@router.post("/save")
async def save(game: TheGame, asked: Save) -> Said:
    """Write all files into a folder; what was left there from an earlier print goes."""
    folder = _folder(game, asked.folder)

    def written() -> int:
        files = ready(game, Look(asked.paper, asked.size))
        built = built_of(game)
        assert built is not None, "there are files of it"
        put_into(folder, built, files, whole=True)
        return len(files)

    n = await pressed(written)
    return Said(said=told(say("page-print-outs.saved", n=n, folder=str(folder))))


def _folder(game: Game, text: str) -> Path:
    path = Path(text.strip())
    home = path.parts[:1] == ("~",)
    return Path.home().joinpath(*path.parts[1:]) if home else game.path / path


# Making the printed set.


@router.post("/make")
def make(game: TheGame, asked: Make) -> Said:
    """Make the printed set of the game as it is; codes stay unless new ones are asked for."""
    last = last_asked(game.path, new=asked.new)
    wishes = replace(
        last.wishes,
        groups=asked.groups,
        level=None,
        levels=asked.levels,
        arrangement=asked.arrangement or None,
    )
    return _made(replace(last, wishes=wishes))


@router.post("/again")
def again(game: TheGame, asked: Again) -> Said:
    """Make the printed set anew with another sheet for one clue."""
    return _made(thrown_again(last_asked(game.path), (asked.clue,)))


def _made(asked: Asked) -> Said:
    built = build(asked)
    keep(built, asked)
    n = sum(len(edition.sheets) for edition in built.editions)
    return Said(said=told(say("page-print-outs.made", n=n)))


def _picture_address(game: Game, look: Look, one: PrintOut, at: int, wide: bool) -> str:
    more = {"wide": "true"} if wide else {}
    return _address(game, look, "picture", file=one.name, at=at, of=one.sha256[:12], **more)


def _address(game: Game, look: Look, what: str, **more: Any) -> str:
    query = urlencode({"paper": look.paper, "size": look.size} | more)
    return f"{game.home}/print-outs/{what}?{query}"
