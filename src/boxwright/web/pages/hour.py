"""The hour: from the tables' names to the end of play, with the clock, hints and help at hand."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, HTTPException, Path, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, Field

from boxwright.choose.edition import Edition
from boxwright.live.at_hand import usual_names
from boxwright.live.beginning import begin as begin_now
from boxwright.live.drafts import NAME_SIGNS
from boxwright.live.events import Purpose
from boxwright.live.naming import Named
from boxwright.paper.frame import PAPERS
from boxwright.paper.outs.lines import sentence
from boxwright.paper.render import draw, lay_out
from boxwright.problems import Problem, Where, refuse, say
from boxwright.web.at_table import Close, table_values
from boxwright.web.desk import TheDesk
from boxwright.web.files import file_answer
from boxwright.web.game import Game, TheGame
from boxwright.web.live import SessionId
from boxwright.web.pieces import Pieces
from boxwright.web.playing import Playing
from boxwright.web.press import pressed
from boxwright.web.print_room import set_of
from boxwright.web.render import file_words, fragment, page, told
from boxwright.web.sent import Next, Sent
from boxwright.web.sessions import close_to, forecast_for, help_in, in_play, playing_of, unfinished

if TYPE_CHECKING:
    from boxwright.live.desk import Desk

router = APIRouter()

STUDIO = "studio"
MINUTE_S = 60
PPI = 80.0
WIDE = 120
KEPT = {"Cache-Control": "private, max-age=86400"}  # not read by people
_beginning = threading.Lock()

Group = Annotated[str, Path(max_length=4, pattern=r"^[0-9]+$")]
Clue = Annotated[str, Path(max_length=40, pattern=r"^[a-z][a-z0-9-]*$")]


class Begin(Sent):
    """Who plays, for how long, and what for; a table without a name does not play."""

    names: Annotated[
        dict[Annotated[str, Field(max_length=4)], Annotated[str, Field(max_length=200)]],
        Field(max_length=99),
    ]
    minutes: Annotated[int, Field(ge=1, le=600)]
    purpose: Purpose = "class"


class Tried(Sent):
    """An answer that a table brought."""

    text: Annotated[str, Field(max_length=200)]


class NamedAnswer(BaseModel):
    """What an answer is: a piece of the page, whether it is right, and for which lock it was."""

    html: str
    right: bool
    lock: str | None


@dataclass(frozen=True, slots=True)
class Seat:
    """A table before play: its name, and the signs of the printed set that it plays."""

    group: str
    name: str
    signs: tuple[str, ...]


# The page


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Show the session in play, or else what is to be said before."""
    playing = in_play(desk, game)
    values = _before(game, desk) if playing is None else _playing(playing, desk, game)
    return page(request, "hour", {"game": game, "playing": playing} | values)


def _playing(playing: Playing, desk: Desk, game: Game) -> dict[str, Any]:
    group = next(iter(playing.editions))
    things = () if game.faults else close_to(desk, game, playing.session, group).things()
    return {
        "state": playing.state,
        "clock": playing.clock(desk.clock.now()),
        "pieces": Pieces().of("hour", playing),
        "things": tuple(things),
    }


def _before(game: Game, desk: Desk) -> dict[str, Any]:
    found = set_of(game)
    editions = found.editions
    prepared = unfinished(desk, game)
    time, state = game.folder.game.time, None if prepared is None else prepared.state
    play = time.bell_to_bell - time.settle - time.briefing - time.debrief - time.tidy
    return {
        "set": found,
        "changed": tuple(map(file_words, found.changed)),
        "tables": tuple(_seats(editions, prepared)),
        "several": len(editions) > 1,
        "minutes": max(1, play if state is None else state.clock.planned_s // MINUTE_S),
        "purpose": "class" if state is None else state.purpose,
        "plan": {"debrief_s": MINUTE_S * time.debrief, "tidy_s": MINUTE_S * time.tidy},
    }


def _seats(editions: tuple[Edition, ...], prepared: Playing | None) -> Iterator[Seat]:
    known = {} if prepared is None else prepared.state.groups
    of_group = {group: one for one in editions for group in one.groups}
    for group, name in usual_names(editions).items():
        signs = tuple(told(say(f"mark.{sign}")) for sign in of_group[group].printing)
        yield Seat(group, known[group].name if group in known else name, signs)


@router.post("/begin")
def begin(game: TheGame, desk: TheDesk, asked: Begin) -> Next:
    """Begin to play; where somebody began a moment ago, join in."""
    names = {group: name.strip() for group, name in asked.names.items() if name.strip()}
    editions = set_of(game).editions
    if not editions:
        refuse(Problem.of("page-hour.nothing-printed", Where(game.name)))
    for group, name in names.items():
        if len(name) > NAME_SIGNS:
            refuse(
                Problem.of(
                    "live.too-long", Where("", ("names", group)), found=len(name), most=NAME_SIGNS
                )
            )
    with _beginning:
        forecast, play_s = forecast_for(desk, game, editions), MINUTE_S * asked.minutes
        begin_now(desk, editions, names, play_s, asked.purpose, STUDIO, forecast=forecast)
    return Next(next=f"{game.home}/hour")


# A table close by


@router.get("/{session}/table/{group}", response_class=HTMLResponse)
def table(game: TheGame, desk: TheDesk, session: SessionId, group: Group) -> HTMLResponse:
    """Show one table with all that helps it on."""
    playing = playing_of(desk, game, session)
    known = playing.state.groups.get(group)
    if known is None:
        raise HTTPException(404)
    close = close_to(desk, game, session, group)
    wide, high = PAPERS[close.printing.look.paper]
    values = table_values(close, known) | {
        "here": f"{game.home}/hour/{session}/table/{group}",
        "high": round(WIDE * high / wide),
    }
    html = fragment("hour_table.html", values)
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


@router.get("/{session}/help", response_class=HTMLResponse)
def help_now(game: TheGame, desk: TheDesk, session: SessionId) -> HTMLResponse:
    """Say which table a hint would help most just now; whoever reads it decides."""
    playing = playing_of(desk, game, session)
    found = help_in(desk, game, playing) if playing.state.clock.status == "running" else None
    html = fragment("hour_help.html", {"help": found})
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


@router.post("/{session}/table/{group}/{clue}/named")
def named(
    game: TheGame, desk: TheDesk, session: SessionId, group: Group, clue: Clue, asked: Tried
) -> NamedAnswer:
    """Say what an answer is that a table brought; it is written down nowhere."""
    close = _close(game, desk, session, group, clue)
    found: Named = close.named(clue, asked.text)
    gives = close.edition.game.clues[clue].gives
    lock = gives if gives in close.edition.game.locks else None
    return NamedAnswer(
        html=fragment("hour_named.html", {"named": found, "sentence": sentence}),
        right=found.right,
        lock=lock,
    )


@router.get("/{session}/table/{group}/{clue}/{at}.png", response_class=Response)
async def picture(
    game: TheGame,
    desk: TheDesk,
    session: SessionId,
    group: Group,
    clue: Clue,
    at: Annotated[int, Path(ge=1, le=99)],
) -> Response:
    """Return a page of a clue's sheet as a picture."""

    def drawn() -> list[bytes]:
        close = _close(game, desk, session, group, clue)
        key = ("sheet", game.path, game.tag, close.edition.id, clue)
        return game.studio.memory.recall(key, lambda: _drawn(close, clue))

    found = await pressed(drawn)
    if at > len(found):
        raise HTTPException(404)
    return Response(found[at - 1], media_type="image/png", headers=KEPT)


@router.get("/{session}/table/{group}/{clue}/sheet.pdf", response_class=Response)
async def sheet(
    game: TheGame, desk: TheDesk, session: SessionId, group: Group, clue: Clue
) -> Response:
    """Return a clue's sheet to be printed again."""

    def printed() -> bytes:
        close = _close(game, desk, session, group, clue)
        pages = close.pages(clue)
        if not pages:
            raise HTTPException(404)
        return lay_out(pages, close.printing.look)

    return file_answer(f"{clue}.pdf", await pressed(printed), "application/pdf", "inline")


def _close(game: Game, desk: Desk, session: str, group: str, clue: str) -> Close:
    playing_of(desk, game, session)
    close = close_to(desk, game, session, group)
    if clue not in close.edition.game.clues:
        raise HTTPException(404)
    return close


def _drawn(close: Close, clue: str) -> list[bytes]:
    pages = close.pages(clue)
    return draw(pages, close.printing.look, "png", ppi=PPI) if pages else []
