"""The first page: which lock is in your hand, and three sheets that lead to its code.

The page itself is there at once; what is made for it is fetched by its script, piece by
piece. Nothing is written to disk.
"""

from __future__ import annotations

import asyncio
from base64 import b64encode
from collections.abc import Mapping
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import ValidationError

from boxwright.choose.suggest import LeftOut
from boxwright.choose.verdict import Verdict
from boxwright.content.lesson import our_tables
from boxwright.game.mechanisms.making import NAMES
from boxwright.problems import Message, Refused, say
from boxwright.puzzles.shelf import names
from boxwright.text import duration
from boxwright.web.hand import NO_LESSON, OWN_ROWS, Asked, Hand
from boxwright.web.held import Held, Shown
from boxwright.web.press import pressed
from boxwright.web.render import fragment, page
from boxwright.web.studio import Memory

router = APIRouter()

MADE = Memory()  # by what it was made from alone, so one for all studios
SHOWN_ROWS = 8
LONGEST_FORM = 900_000
SAMPLES: Mapping[str, tuple[str, ...]] = {
    "number-wheels": ("4", "7", "2"),
    "letter-wheels": ("T", "R", "A", "I", "L"),
    "colour-wheels": ("red", "blue", "green"),
    "symbol-wheels": ("star", "leaf", "drop"),
}
"""What the wheels show while nobody has chosen a lock."""


@router.get("/", response_class=HTMLResponse)
def show(request: Request, hand: Annotated[Hand, Query()]) -> HTMLResponse:
    """Show the question; and when it is answered, what stands in the address."""
    held = Held(Asked(**hand.model_dump()), MADE)
    return page(request, "lock_in_hand", _values(held))


@router.post("/hand/verdict", response_class=HTMLResponse)
def verdict(asked: Asked) -> HTMLResponse:
    """Say whether the lock can show the code, and how good a code it is."""
    return _piece("verdict", Held(asked, MADE))


@router.post("/hand/lesson", response_class=HTMLResponse)
def lesson(asked: Asked) -> HTMLResponse:
    """Say what the rows were recognised as, and which are bad."""
    return _piece("lesson", Held(asked, MADE))


@router.post("/hand/sheets", response_class=HTMLResponse)
async def sheets(asked: Asked) -> HTMLResponse:
    """Show up to three sheets as they will print."""
    held = Held(asked, MADE)
    found = await pressed(lambda: held.sheets)
    await asyncio.gather(*(pressed(partial(_drawn, one)) for one in found))
    return _piece("sheets", held)


@router.post("/hand/sheet", response_class=HTMLResponse)
async def sheet(asked: Asked) -> HTMLResponse:
    """Show one sheet large, with its answer, its working, hints and usual mistakes."""
    shown = await pressed(lambda: _opened(asked))
    await pressed(partial(_drawn, shown))
    return _piece("sheet", shown.held)


@router.post("/hand/print")
async def print_it(asked: Annotated[str, Form(max_length=LONGEST_FORM)]) -> Response:
    """Return one sheet with its key as a PDF."""
    try:
        wanted = Asked.model_validate_json(asked)
    except ValidationError as error:
        raise HTTPException(422) from error
    shown = await pressed(lambda: _opened(wanted))
    pdf = await pressed(lambda: _printed(shown))
    name = {"Content-Disposition": f"inline; filename={shown.kind}.pdf"}  # not read by people
    return Response(pdf, media_type="application/pdf", headers=name)


def _opened(asked: Asked) -> Shown:
    """Return the sheet that is asked for; 404 where it is none of the three."""
    shown = Held(asked, MADE).opened
    if shown is None:
        raise HTTPException(404)
    return shown


def _drawn(shown: Shown) -> None:
    """Make a sheet and its pictures, which are remembered."""
    _ = shown.faults


def _printed(shown: Shown) -> bytes:
    keyed = shown.keyed
    if isinstance(keyed, tuple):
        raise Refused(keyed)
    return keyed.pdf(shown.look)


# What the templates show


def _piece(name: str, held: Held) -> HTMLResponse:
    html = fragment(f"lock_in_hand_{name}.html", _values(held))
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


def _values(held: Held) -> dict[str, Any]:
    found = held.verdict if held.asked.lock else None
    good = isinstance(found, Verdict)
    return {
        "held": held,
        "asked": held.asked,
        "mechanisms": NAMES,
        "samples": SAMPLES,
        "lessons": our_tables(),
        "no_lesson": NO_LESSON,
        "own_rows": OWN_ROWS,
        "shown_rows": SHOWN_ROWS,
        "verdict": found if good else None,
        "problem": None if good else found,
        "time": duration(found.guess.worst_s) if isinstance(found, Verdict) else None,
        "left_out": by_reason(held.suggested.left_out) if held.suggested else (),
        "kinds": len(names()),
        "as_picture": as_picture,
    }


def by_reason(left_out: tuple[LeftOut, ...]) -> list[tuple[Message, Message | None, list[Message]]]:
    """Return what is left out, those of one reason together: reason, remedy, titles."""
    found: dict[tuple[Message, Message | None], list[Message]] = {}
    for one in left_out:
        found.setdefault((one.why, one.remedy), []).append(say(f"{one.kind}.title"))
    return [(why, remedy, titles) for (why, remedy), titles in found.items()]


def as_picture(svg: bytes) -> str:
    """Return an SVG as the address of a picture, which can hold no script that runs."""
    return "data:image/svg+xml;base64," + b64encode(svg).decode()
