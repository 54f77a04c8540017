"""A session down to its pages by socket, and their taps up to the desk by plain requests.

A tap has an id of the page's own. A page keeps it until it is answered and sends it again, so
that none is lost and none counts twice, whatever dies in between.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated, Any

import anyio
from fastapi import APIRouter, HTTPException, Path, WebSocket, WebSocketDisconnect
from fastapi.concurrency import run_in_threadpool
from pydantic import AfterValidator, BaseModel, Field

from boxwright.live.drafts import Draft
from boxwright.problems import Problem, Refused
from boxwright.web.desk import TheDesk, desk_of
from boxwright.web.errors import problem_json
from boxwright.web.game import TheStudio, studio_of
from boxwright.web.pieces import PageName
from boxwright.web.relay import Post, Relays
from boxwright.web.render import told
from boxwright.web.sent import Sent

if TYPE_CHECKING:
    from boxwright.live.desk import Desk

router = APIRouter(tags=["live"])

GONE = 4404
"""The code of a socket that is closed since there is no such session; pages know it."""
MOST_TAPS = 100
WEEK_MS = 7 * 24 * 3600 * 1000

GameName = Annotated[str, Path(max_length=120)]
SessionId = Annotated[str, Path(max_length=60, pattern=r"^s-[0-9a-zA-Z-]{1,58}$")]
Short = Annotated[str, Field(pattern=r"^[0-9A-Za-z._-]{1,64}$")]


def _keepable(data: dict[str, Any]) -> dict[str, Any]:
    """Refuse what cannot be written down: half signs, numbers that are none."""
    try:
        json.dumps(data, ensure_ascii=False, allow_nan=False).encode()
    except RecursionError:
        raise ValueError from None
    return data


class Tap(Sent):
    """One tap: an event without what the desk adds; `happened_ms` is how long ago it was made."""

    type: Annotated[str, Field(pattern=r"^[a-z]{1,20}(\.[a-z]{1,20})?$")]
    data: Annotated[dict[str, Any], Field(max_length=20), AfterValidator(_keepable)]
    id: Short
    device: Short
    rights: Short = "teacher"
    happened_ms: Annotated[int, Field(ge=-WEEK_MS, le=0)] = 0


class Taps(Sent):
    """The taps that a page has not yet been answered, in the order in which they were made."""

    taps: Annotated[tuple[Tap, ...], Field(min_length=1, max_length=MOST_TAPS)]


class Answer(BaseModel):
    """What became of a tap: kept as number `seq`, perhaps with a note; or why it was not."""

    id: str
    seq: int | None = None
    note: str | None = None
    problems: list[dict[str, Any]] = []


class Answers(BaseModel):
    """What became of each tap that was sent."""

    answers: list[Answer]


@router.post("/taps/{session}")
def taps(
    studio: TheStudio, desk: TheDesk, game: GameName, session: SessionId, asked: Taps
) -> Answers:
    """Keep taps; one that is refused keeps none of the others back."""
    if studio.folder(game) is None:
        raise HTTPException(404)
    return Answers(answers=[_taken(desk, session, tap) for tap in asked.taps])


def _taken(desk: Desk, session: str, tap: Tap) -> Answer:
    draft = Draft(tap.type, tap.data, tap.id, tap.device, tap.rights, tap.happened_ms)
    try:
        taken = desk.take(session, draft)
    except Refused as refused:
        if any(map(_of_all, refused.problems)):
            raise
        return Answer(id=tap.id, problems=[problem_json(one) for one in refused.problems])
    note = None if taken.note is None else told(taken.note)
    return Answer(id=tap.id, seq=taken.event.seq, note=note)


def _of_all(problem: Problem) -> bool:
    """Tell whether none of the taps can be kept: the ledger is at fault, or there is no session."""
    return problem.code.startswith("ledger.") or problem.code == "live.no-session"


@router.websocket("/live/{session}")
async def live(
    socket: WebSocket, game: GameName, session: SessionId, page: PageName = "hour"
) -> None:
    """Send a session to a page: all of it, then whatever changes, until the page goes away."""
    await socket.accept()
    relays: Relays = socket.app.state.relays
    try:
        if studio_of(socket).folder(game) is None:
            raise Refused([])
        desk = await run_in_threadpool(desk_of, socket)
        relay, post, first = await relays.join(desk, session, page)
    except Refused:
        await socket.close(GONE)
        return
    try:
        await _serve(socket, post, first)
    finally:
        relays.leave(relay, post)


async def _serve(socket: WebSocket, post: Post, first: str) -> None:
    """Send until either side is done; a page that was closed is noticed by what it sends."""
    async with anyio.create_task_group() as both:
        both.start_soon(_up, socket, both.cancel_scope)
        await _down(socket, post, first)
        both.cancel_scope.cancel()


async def _down(socket: WebSocket, post: Post, first: str) -> None:
    text: str | None = first
    try:
        while text is not None:
            await socket.send_text(text)
            text = await post.queue.get()
        await socket.close()
    except WebSocketDisconnect:
        return


async def _up(socket: WebSocket, both: anyio.CancelScope) -> None:
    """Wait until the page goes away; it has nothing to say here."""
    try:
        while True:
            await socket.receive_text()
    # RuntimeError: it was gone before this began; KeyError: it sent bytes.
    except (WebSocketDisconnect, RuntimeError, KeyError):
        both.cancel()
