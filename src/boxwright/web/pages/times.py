"""The period from bell to bell, drawn to scale; what clues and story take of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from boxwright.build import Built, about_of
from boxwright.game.model import Time
from boxwright.text import minute_figures
from boxwright.web.game import Game, TheGame
from boxwright.web.render import fragment, page

router = APIRouter()

PARTS = ("settle", "briefing", "play", "debrief", "tidy")
PLAY = "play"
MINUTE = 60
AREA = "time."


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
    values = {"game": game, "time": time, "parts": list(_parts(time)), "ticks": ticks}
    return page(request, "times", values)


@router.get("/needs", response_class=HTMLResponse)
def needs(game: TheGame) -> HTMLResponse:
    """Return what clues and story take, and what the checks say of it; worked out from the set."""
    return HTMLResponse(fragment("times_needs.html", _needed(game)))


def _parts(time: Time) -> Iterator[Part]:
    """Yield the parts in order; play is what the others leave."""
    minutes = {name: getattr(time, name) for name in PARTS if name != PLAY}
    minutes[PLAY] = max(0, time.bell_to_bell - sum(minutes.values()))
    at = 0
    for name in PARTS:
        share = 100 / time.bell_to_bell
        yield Part(name, minutes[name], at * share, minutes[name] * share)
        at += minutes[name]


def _needed(game: Game) -> dict[str, object]:
    built = game.built
    if not isinstance(built, Built):
        return {"problems": built, "findings": (), "play": None, "aloud": None}
    from boxwright.checks.play_time import needs as needs_of  # late: it brings all kinds along

    found = [needs_of(one, about_of(built.folder, one)) for one in built.editions]
    return {
        "problems": (),
        "findings": [one for one in built.findings if one.problem.code.startswith(AREA)],
        "play": _minutes(max(one.play for one in found)),
        "aloud": _minutes(max(one.aloud for one in found)),
    }


def _minutes(seconds: int) -> float:
    """Return minutes to a half."""
    return round(2 * seconds / MINUTE) / 2
