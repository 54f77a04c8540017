"""After: what each table did along the clock, what to talk over, the report, and forgetting it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from boxwright.choose.edition import Edition
from boxwright.ledger.event import new_id, wall_here, wall_text
from boxwright.live.drafts import Draft
from boxwright.live.noted import State
from boxwright.live.played import played_pdf
from boxwright.live.report import as_csv, report
from boxwright.live.telling import on_clock
from boxwright.live.timeline import timeline
from boxwright.paper.outs.lines import sentence
from boxwright.problems import Problem, Where, refuse, say
from boxwright.web.desk import TheDesk
from boxwright.web.files import file_answer
from boxwright.web.game import Game, TheGame
from boxwright.web.live import SessionId
from boxwright.web.playing import Playing
from boxwright.web.press import pressed
from boxwright.web.render import fragment, page, told
from boxwright.web.sent import Next
from boxwright.web.sessions import close_to, game_id, playing_of

if TYPE_CHECKING:
    from boxwright.live.desk import Desk

router = APIRouter()

STUDIO = "studio"
CLOSED = "session.closed"


class Forgotten(Next):
    """Where to go on, and what is said there."""

    said: str


@dataclass(frozen=True, slots=True)
class Played:
    """A session in the list: its id, its day, its tables; `state` is a word for how it stands."""

    id: str
    day: str
    tables: tuple[str, ...]
    state: str
    purpose: str


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Show all sessions of a game, the newest first."""
    values = {"game": game, "sessions": list(_all(game, desk))}
    return page(request, "after", values | {"playing": None})


def _all(game: Game, desk: Desk) -> Iterator[Played]:
    for one in desk.sessions(game_id(game)):
        state = desk.glance(one)
        how = "open" if not state.closed else "closed"
        if state.clock.status == "not-started":
            how = "prepared"
        names = tuple(group.name for group in state.groups.values())
        yield Played(one.id, wall_here(_played_at(state, one.opened)), names, how, state.purpose)


@router.get("/{session}", response_class=HTMLResponse)
def one(request: Request, game: TheGame, desk: TheDesk, session: SessionId) -> HTMLResponse:
    """Show one session."""
    playing = playing_of(desk, game, session)
    whole = report(playing.state, playing.editions)
    values = {
        "game": game,
        "playing": playing,
        "state": playing.state,
        "day": wall_here(_when(desk, playing)),
        "line": timeline(playing.state, whole),
        "report": whole,
        "on_clock": lambda second: on_clock(1000 * second),
        "sentence": sentence,
        "told": playing.edition.game.story,
        "goals": playing.edition.game.goals,
    }
    return page(request, "after", values)


@router.get("/{session}/solutions", response_class=HTMLResponse)
def solutions(game: TheGame, desk: TheDesk, session: SessionId) -> HTMLResponse:
    """Return each clue's answer and how it is worked out, for the talk afterwards."""
    playing = playing_of(desk, game, session)
    editions: dict[str, tuple[str, Edition]] = {}
    for group, edition in playing.editions.items():
        editions.setdefault(edition.id, (group, edition))
    values = {
        "several": len(editions) > 1,
        "sets": [
            (_names(playing, edition), close_to(desk, game, session, group))
            for group, edition in editions.values()
        ],
    }
    html = fragment("after_solutions.html", values | {"sentence": sentence})
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


def _names(playing: Playing, edition: Edition) -> tuple[str, ...]:
    groups = (group for group, other in playing.editions.items() if other.id == edition.id)
    return tuple(playing.table_name(group) or group for group in groups)


@router.get("/{session}/report.pdf", response_class=Response)
async def report_pdf(game: TheGame, desk: TheDesk, session: SessionId) -> Response:
    """Return the report on paper."""

    def made() -> tuple[str, bytes]:
        playing = playing_of(desk, game, session)
        when = _when(desk, playing)
        pdf = played_pdf(playing.state, playing.editions, when, desk.clock.now())
        return _name(playing, when, "pdf"), pdf

    name, pdf = await pressed(made)
    return file_answer(name, pdf, "application/pdf", "inline")


@router.get("/{session}/report.csv", response_class=Response)
def report_csv(game: TheGame, desk: TheDesk, session: SessionId) -> Response:
    """Return the report for a spreadsheet."""
    playing = playing_of(desk, game, session)
    text = as_csv(playing.state, playing.editions, playing.edition.game.language)
    name = _name(playing, _when(desk, playing), "csv")
    return file_answer(name, text.encode("utf-8-sig"), "text/csv")


@router.post("/{session}/forget")
def forget(game: TheGame, desk: TheDesk, session: SessionId) -> Forgotten:
    """Forget a session for good."""
    playing_of(desk, game, session)
    desk.forget(session)
    return Forgotten(said=told(say("page-after.forgotten")), next=f"{game.home}/after")


@router.post("/{session}/reopen")
def reopen(game: TheGame, desk: TheDesk, session: SessionId) -> Next:
    """Take a session up again that was closed by mistake."""
    playing = playing_of(desk, game, session)
    closing = next((one for one in reversed(playing.state.undo) if one.type == CLOSED), None)
    if closing is None:
        refuse(Problem.of("page-after.not-closed", Where(session)))
    id = new_id(desk.clock.now().wall_ms)
    desk.take(session, Draft("undone", {"event": closing.id}, id, STUDIO, "teacher"))
    return Next(next=f"{game.home}/hour")


def _played_at(state: State, opened: str) -> str:
    """Return when the clock was started, since it may have been set up a day before."""
    runs = state.clock.runs
    return wall_text(runs[0].start.wall_ms) if runs else opened


def _when(desk: Desk, playing: Playing) -> str:
    return _played_at(playing.state, desk.events(playing.session)[0].wall)


def _name(playing: Playing, when: str, ending: str) -> str:
    return f"{playing.edition.game.id}-{wall_here(when)[:10]}.{ending}"
