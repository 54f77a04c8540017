"""The example game with one mistake planted in a copy of it: found, explained, mended."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import HTMLResponse

from boxwright.build import about_of
from boxwright.build.planted import MISTAKES, Planted, planted
from boxwright.checks import About
from boxwright.choose.edition import Edition
from boxwright.game.draft import SECTIONS
from boxwright.game.examples import examples
from boxwright.game.mechanisms import Code, Device
from boxwright.problems import Cycle, Finding
from boxwright.web.press import pressed
from boxwright.web.render import fragment, page
from boxwright.web.studio import Memory

router = APIRouter()

EXAMPLE = "tide-mill"
MADE = Memory()  # the example is the same for all studios
Name = Annotated[Literal["word", "ring"], Query()]


@router.get("", response_class=HTMLResponse)
def show(request: Request, mistake: Name = "word", mended: bool = False) -> HTMLResponse:
    """Show which mistake it is; what the checks say is fetched by the page's script."""
    values = {"mistake": mistake, "mended": mended, "mistakes": tuple(MISTAKES)}
    return page(request, "planted", values)


@router.get("/found", response_class=HTMLResponse)
async def found(mistake: Name = "word", mended: bool = False) -> HTMLResponse:
    """Build and check the copy, and show the game with what was found."""
    path = examples().get(EXAMPLE)
    if path is None:
        raise HTTPException(404)
    made: Planted = await pressed(
        lambda: MADE.recall(
            (mistake, mended), lambda: planted(path, MISTAKES[mistake], mended=mended)
        )
    )
    values = {
        "mistake": mistake,
        "mended": mended,
        "example": EXAMPLE,
        "found": made.found,
        "done": made.done,
        "title": made.built.edition.game.title,
        "summary": made.built.edition.game.summary or "",
        "table": tuple(_shelf(made)),
    }
    html = fragment("planted_found.html", values)
    return HTMLResponse(html, headers={"Cache-Control": "no-store"})


# The game as boxes inside boxes


@dataclass(frozen=True, slots=True)
class Lock:
    """A lock on a box, set to its code; `bad` where a finding is about it."""

    id: str
    device: Device
    code: Code
    bad: bool


@dataclass(frozen=True, slots=True)
class Box:
    """A box with its locks, and what lies in it: sheets, items, other boxes."""

    name: str
    locks: tuple[Lock, ...]
    sheets: tuple[tuple[str, bool], ...]
    items: tuple[str, ...]
    boxes: tuple[Box, ...]
    bad: bool


def _shelf(made: Planted) -> Iterator[Box]:
    """Yield the boxes that stand in the open, each with all that is in it."""
    edition = made.built.edition
    about = about_of(made.built.folder, edition)
    bad = frozenset(id for one in made.found[:1] for id in _things(one))
    for id, box in edition.game.boxes.items():
        if box.place not in edition.game.boxes:
            yield _box(edition, about, id, bad)


def _things(finding: Finding) -> Iterator[str]:
    """Yield the ids of the things that a finding is about."""
    path = finding.problem.where.path
    if len(path) > 1 and path[0] in SECTIONS:
        yield str(path[1])
    if isinstance(finding.evidence, Cycle):
        yield from finding.evidence.ids


def _box(edition: Edition, about: About, id: str, bad: frozenset[str]) -> Box:
    game = edition.game
    sheets = (clue for clue, one in edition.sheets.items() if id in one.parts.values())
    locks = (
        Lock(lock, about.device(lock), edition.codes.get(lock, ()), lock in bad)
        for lock, one in game.locks.items()
        if one.closes == id
    )
    inside = (one for one, box in game.boxes.items() if box.place == id)
    return Box(
        name=game.name_of(id),
        locks=tuple(locks),
        sheets=tuple((clue, clue in bad) for clue in sheets),
        items=tuple(game.name_of(item) for item, one in game.items.items() if one.place == id),
        boxes=tuple(_box(edition, about, one, bad) for one in inside),
        bad=id in bad,
    )
