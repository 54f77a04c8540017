"""The period from bell to bell, drawn to scale; what clues and story take of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from boxwright.build import Built
from boxwright.game.model import Time
from boxwright.text import minute_figures
from boxwright.web.desk import TheDesk
from boxwright.web.game import Game, TheGame
from boxwright.web.plans import Plans, foreseen_in, offered, planned, plans_of, problems_in
from boxwright.web.render import fragment, page

router = APIRouter()

PARTS = ("settle", "briefing", "play", "debrief", "tidy")
PLAY = "play"
MINUTE = 60
AREA = "time."
PLAN_ROOM, PLAN_ROW = 580, 30
"""Pixels for what stands around the rows of a plan, and for each of them."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the period: its minutes, and where it stands on the bar, in hundredths."""

    name: str
    minutes: int
    start: float
    width: float


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show the times."""
    time = game.folder.game.time
    whole = time.bell_to_bell
    ticks = [(minute, 100 * minute / whole) for minute in minute_figures(whole)]
    room = PLAN_ROOM + PLAN_ROW * len(game.folder.game.clues)  # so that nothing jumps later
    values = {
        "game": game,
        "time": time,
        "parts": list(_parts(time)),
        "ticks": ticks,
        "room": room,
    }
    return page(request, "times", values)


@router.get("/plan", response_class=HTMLResponse)
def plan(game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Return how long clues and story take, and what the checks say of it."""
    return HTMLResponse(fragment("times_plan.html", _planned(game, plans_of(game, desk))))


@router.get("/short", response_class=HTMLResponse)
def short(game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Return the plan in a line, to stand beside the game."""
    plans = [planned(one) for one in foreseen_in(plans_of(game, desk))]
    return HTMLResponse(fragment("times_short.html", {"game": game, "plans": plans}))


@router.get("/helps", response_class=HTMLResponse)
def helps(game: TheGame, desk: TheDesk) -> HTMLResponse:
    """Return what would change how long it takes; to try it all takes a while."""
    found = foreseen_in(plans_of(game, desk, changes=True))
    return HTMLResponse(fragment("times_helps.html", {"offered": list(map(offered, found))}))


def _parts(time: Time) -> Iterator[Part]:
    """Yield the parts in order; play is what the others leave."""
    minutes = {name: getattr(time, name) for name in PARTS if name != PLAY}
    minutes[PLAY] = max(0, time.bell_to_bell - sum(minutes.values()))
    at = 0
    for name in PARTS:
        share = 100 / time.bell_to_bell
        yield Part(name, minutes[name], at * share, minutes[name] * share)
        at += minutes[name]


def _planned(game: Game, plans: Plans) -> dict[str, object]:
    from boxwright.checks.play_time import read_aloud_s  # late: it brings all kinds along

    found, built = foreseen_in(plans), game.built
    if not found or not isinstance(built, Built):
        return {"problems": problems_in(plans), "plans": ()}
    ends = [one.forecast.finish for one in found]
    return {
        "problems": (),
        "plans": list(map(planned, found)),
        "findings": [one for one in built.findings if one.problem.code.startswith(AREA)],
        "middle": _latest(one.p50 for one in ends),
        "slow": _latest(one.p90 for one in ends),
        "aloud": _minutes(read_aloud_s(built.edition.game.story.opening)),
    }


def _latest(seconds: Iterable[float | None]) -> float | None:
    """Return the most, in minutes; None where one of them is never."""
    known = [one for one in seconds if one is not None]
    return _minutes(max(known)) if known else None


def _minutes(seconds: float) -> float:
    """Return minutes to a half."""
    return round(2 * seconds / MINUTE) / 2
