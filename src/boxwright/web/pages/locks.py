"""The lock book: what is on each lock, since when, for what; one lock's history, and its search."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, islice
from typing import Annotated, Any, Literal
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, HTTPException, Path, Query, Request
from fastapi.responses import HTMLResponse
from pydantic import Field

from boxwright.game.choosing import Wishes
from boxwright.game.mechanisms import Code, read_code, stages, suspects
from boxwright.ledger.event import new_id
from boxwright.ledger.lock_book import LockEvent, LockRecord, read, record
from boxwright.ledger.real_locks import RealLock
from boxwright.paper.outs.lines import sentence
from boxwright.problems import Message, Problem, Where, refuse, say
from boxwright.text import duration
from boxwright.web.desk import TheDesk
from boxwright.web.game import TheStudio, open_game
from boxwright.web.render import page, told
from boxwright.web.scene import drawing
from boxwright.web.sent import Said, Sent
from boxwright.web.shelves import Leaf, faults, leaf_of, leaves
from boxwright.web.studio import Studio

router = APIRouter()

TRIES = 40
MOST_TRIES = 2000
CODE = Where("", ("code",))
Kit = Annotated[str, Path(max_length=40, pattern=r"^[a-z][a-z0-9-]*$")]
Tag = Annotated[str, Path(max_length=6, pattern=r"^[A-Z]{1,3}[0-9]{1,3}$")]
Done = Literal["lock.set", "lock.checked", "lock.lost", "lock.found", "lock.battery"]


class Noted(Sent):
    """What was done to a lock; a code goes with setting and finding, a purpose with setting."""

    type: Done
    code: Annotated[str, Field(max_length=120)] = ""
    game: Annotated[str, Field(max_length=40, pattern=r"^[^\x00-\x1f]*$")] = ""


@dataclass(frozen=True, slots=True)
class Back:
    """The game whose set-up list led here, for the way back; what addresses in the book carry."""

    title: str
    to: str
    query: str


def back_to(
    studio: TheStudio, game: Annotated[str | None, Query(max_length=120)] = None
) -> Back | None:
    """Return the way back to the game that an address names; None where it names none of ours."""
    if game is None or studio.folder(game) is None:
        return None
    found = open_game(studio, Wishes(), game)
    return Back(found.title, found.address("set_up"), urlencode({"game": game}))


TheBack = Annotated[Back | None, Depends(back_to)]


# All locks.


@router.get("", response_class=HTMLResponse)
def show(request: Request, studio: TheStudio, desk: TheDesk, back: TheBack) -> HTMLResponse:
    """Show what is on each lock."""
    found = tuple(leaves(studio, read(desk.ledger)))
    values = {
        "leaf": None,
        "back": back,
        "shelves": found,
        "titles": titles(studio, (one.record for _, some in found for one in some)),
        "faults": faults(studio),
        "drawn": drawn,
        "named": named,
    }
    return page(request, "locks", values)


def titles(studio: Studio, records: Iterator[LockRecord]) -> dict[str, str]:
    """Return the titles of games that locks were set for; their ids where they are not here."""
    games = {event.game for one in records for event in one.history if event.game}
    return {game: _title(studio, game) for game in games}


def _title(studio: Studio, game: str) -> str:
    try:
        return open_game(studio, Wishes(), game).title
    except HTTPException:
        return game


def named(leaf: Leaf) -> str:
    """Return what sort of lock it is."""
    sort = "lock" if leaf.lock is None else leaf.lock.device.mechanism
    return sentence(told(say(f"mechanism.name-{sort}")))


def drawn(leaf: Leaf) -> dict[str, Any] | None:
    """Return how it looks, with its code where that is known; None where no kit tells."""
    if leaf.lock is None:
        return None
    code = None if leaf.record.code is None else readable(leaf.lock, leaf.record.code)
    return drawing(leaf.lock.device, code)


def readable(lock: RealLock, text: str) -> Code | None:
    """Return a code of the book; None where the lock cannot show it any more."""
    code = read_code(lock.device, text, CODE)
    return None if isinstance(code, Problem) else code


# One lock.


def leaf(studio: TheStudio, desk: TheDesk, kit: Kit, tag: Tag) -> Leaf:
    """Return the leaf that an address names; 404 where the book has none."""
    found = leaf_of(studio, read(desk.ledger), kit, tag)
    if found is None:
        raise HTTPException(404)
    return found


TheLeaf = Annotated[Leaf, Depends(leaf)]


@router.get("/{kit}/{tag}", response_class=HTMLResponse)
def one(
    request: Request,
    studio: TheStudio,
    leaf: TheLeaf,
    back: TheBack,
    tries: Annotated[int, Query(ge=1, le=MOST_TRIES)] = TRIES,
) -> HTMLResponse:
    """Show one lock: what it is set to, what happened to it, what to try if that is lost."""
    values = {
        "leaf": leaf,
        "back": back,
        "here": f"/locks/{leaf.record.kit}/{leaf.record.tag}",
        "titles": titles(studio, iter([leaf.record])),
        "search": search(leaf, tries),
        "tries": tries,
        "drawn": drawn(leaf),
        "name": named(leaf),
        "sentence": sentence,
        "battery": leaf.lock is not None and leaf.lock.device.mechanism == "keypad",
    }
    return page(request, "locks", values)


@dataclass(frozen=True, slots=True)
class Search:
    """What to try on a lock whose code is lost, stage by stage; `more` if there is more to show."""

    stages: tuple[tuple[Message, int, Message], ...]
    first: tuple[tuple[Message, tuple[str, ...]], ...]
    more: bool


def search(leaf: Leaf, tries: int) -> Search | None:
    """Return what to try; None where nothing is lost, or nobody knows what the lock is like."""
    lock, meant = leaf.lock, leaf.record.meant
    if leaf.state != "lost" or lock is None or meant is None:
        return None
    code = readable(lock, meant)
    if code is None:
        return None
    earlier = lock.earlier(leaf.record)
    found = stages(lock.device, code, earlier)
    says = {stage.stage: stage.says for stage in found}
    first = list(islice(suspects(lock.device, code, earlier), tries))
    return Search(
        tuple((stage.says, stage.tries, duration(stage.until_s)) for stage in found),
        tuple(
            (says[name], tuple(lock.written(suspect.code) for suspect in some))
            for name, some in groupby(first, lambda suspect: suspect.stage)
        ),
        sum(stage.tries for stage in found) > len(first),
    )


# Writing into it.


@router.post("/{kit}/{tag}/note")
def note(desk: TheDesk, leaf: TheLeaf, asked: Noted) -> Said:
    """Write into the book what was done to a lock."""
    code = _code(leaf, asked) if asked.type in ("lock.set", "lock.found") else None
    now, game = desk.clock.now(), asked.game.strip() or None
    purpose = game if asked.type == "lock.set" else None
    kit, tag = leaf.record.kit, leaf.record.tag
    done = LockEvent(new_id(now.wall_ms), kit, tag, asked.type, now.wall, code, purpose)
    record(desk.ledger, done)
    name = asked.type.removeprefix("lock.")
    return Said(said=told(say(f"page-locks.noted-{name}", tag=tag, code=code or "")))


def _code(leaf: Leaf, asked: Noted) -> str:
    """Return the code that was typed, in its written form; raises Refused where it cannot be."""
    if leaf.lock is None:
        refuse(Problem.of("page-locks.no-kit", CODE, tag=leaf.record.tag))
    if not asked.code.strip():
        refuse(Problem.of("page-locks.no-code", CODE))
    return leaf.lock.settable(asked.code, CODE)
