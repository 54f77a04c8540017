"""Setting up and resetting with a tablet in one hand: the card's steps, ticked as they are done."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from fastapi import APIRouter, HTTPException, Path, Query, Request
from fastapi.responses import HTMLResponse
from pydantic import BaseModel, Field

from boxwright.build.current import Standing
from boxwright.choose.card import TIMES
from boxwright.choose.gear import Gear
from boxwright.choose.tray import Counted, tray
from boxwright.ledger.lock_book import read
from boxwright.live.at_hand import at_hand, played_before, prepared, usual_names
from boxwright.live.checklist import Checklist
from boxwright.live.desk import Desk
from boxwright.live.noted import State
from boxwright.live.ticking import Tap, tick, untick
from boxwright.paper.outs.cautions import cautions
from boxwright.paper.outs.lines import sentence
from boxwright.paper.signs import FIELD, drawings
from boxwright.problems import Message, Problem, Refused, Where, refuse, say
from boxwright.web.desk import TheDesk
from boxwright.web.errors import problem_json
from boxwright.web.game import Game, TheGame
from boxwright.web.print_room import set_of
from boxwright.web.render import page, told
from boxwright.web.scene import drawing
from boxwright.web.sent import Sent
from boxwright.web.sessions import forecast_for
from boxwright.web.to_tick import close_locks, lines_of, set_otherwise

router = APIRouter()

Which = Literal["set-up", "reset"]
LONG_AGO_MS = -7 * 24 * 3600 * 1000
List = Annotated[Which, Query(alias="list")]
SetId = Annotated[str, Query(max_length=400, pattern=r"^[a-z2-7.]+$")]


class Ticked(Sent):
    """Which box of a list."""

    step: Annotated[str, Field(max_length=200)]


class Tapped(Sent):
    """One tap: a box is ticked, or was not after all; `happened_ms` is how long ago that was."""

    type: Literal["step.ticked", "undone"]
    data: Ticked
    id: Annotated[str, Field(pattern=r"^[0-9A-Za-z-]{8,64}$")]
    device: Annotated[str, Field(pattern=r"^[0-9A-Za-z._-]{1,40}$")]
    rights: Literal["teacher"] = "teacher"
    happened_ms: Annotated[int, Field(ge=LONG_AGO_MS, le=0)] = 0


class Taps(Sent):
    """The taps that a page has not yet been answered, in order."""

    taps: Annotated[tuple[Tapped, ...], Field(min_length=1, max_length=100)]


class Now(BaseModel):
    """What is ticked, how far that is in words, and how many steps are done of how many."""

    ticked: list[str]
    said: str
    done: int
    of: int


class Answer(BaseModel):
    """What became of a tap: why it was not kept; with the last of several, what is ticked now."""

    id: str
    now: Now | None = None
    problems: list[dict[str, Any]] = []


class Answers(BaseModel):
    """What became of each tap."""

    answers: list[Answer]


# The page.


@router.get("", response_class=HTMLResponse)
def show(
    request: Request,
    game: TheGame,
    desk: TheDesk,
    which: Annotated[Which | None, Query(alias="list")] = None,
) -> HTMLResponse:
    """Show a list of the printed set: after a play the one for resetting, else for setting up."""
    found = set_of(game)
    values: dict[str, Any] = {"game": game, "set": found, "here": _here(game), "lines": ()}
    if isinstance(found.of, Standing):
        played = played_before(desk, found.of.editions)
        todo = _todo(game, which or ("reset" if played else "set-up"))
        values |= _shown(todo, desk) | {"played": played}
    return page(request, "set_up", values)


def _here(game: Game) -> str:
    return f"{game.home}/set-up"


def _todo(game: Game, which: Which) -> Checklist:
    """Return a list of the printed set of the game as it is; Refused where there is none."""
    standing = set_of(game).of
    if not isinstance(standing, Standing):
        refuse(Problem.of("page-set-up.no-set", Where(game.name)))
    gears = tuple(Gear(edition, standing.folder) for edition in standing.editions)
    key = ("checklist", game.path, game.tag, which, _of(gears))
    return game.studio.memory.recall(key, lambda: Checklist(which, gears))


def _of(gears: tuple[Gear, ...]) -> str:
    """Return what tells one printed set from another."""
    return ".".join(gear.edition.id for gear in gears)


def _shown(todo: Checklist, desk: Desk) -> dict[str, Any]:
    book, gear = read(desk.ledger), todo.gears[0]
    state, lines = _state(todo, desk), lines_of(todo, book)
    return {
        "todo": todo,
        "of": _of(todo.gears),
        "lines": lines,
        "times": [name for name, _ in TIMES if any(one.time(name) for one in lines)],
        "now": _now(todo, state),
        "ticked": frozenset(_ticked(todo, state)),
        "playing": state is not None and bool(state.clock.runs),
        "otherwise": tuple(set_otherwise(todo, book)) if todo.list == "reset" else (),
        "minded": tuple(cautions(gear)),
        "close": close_locks(todo),
        "signs": drawings(),
        "field": FIELD,
        "tables": _tables(todo, state),
        "n": sum(len(gear.edition.groups) for gear in todo.gears),
    }


def _state(todo: Checklist, desk: Desk) -> State | None:
    session = at_hand(desk, [gear.edition for gear in todo.gears])
    return None if session is None else desk.state(session)


def _ticked(todo: Checklist, state: State | None) -> Iterator[str]:
    done = {} if state is None else state.ticked.get(todo.list, {})
    return (id for id in todo.boxes if id in done)


def _now(todo: Checklist, state: State | None) -> Now:
    ticked = [*_ticked(todo, state)]
    left = todo.left(frozenset(ticked))
    code = "page-set-up.all-done" if left.done == left.steps else "page-set-up.progress"
    said = say(code, done=left.done, of=left.steps, n=left.minutes)
    return Now(ticked=ticked, said=told(said), done=left.done, of=left.steps)


def _tables(todo: Checklist, state: State | None) -> dict[str, str]:
    """Return what each group's table is called."""
    known = {} if state is None else {id: one.name for id, one in state.groups.items()}
    return usual_names([gear.edition for gear in todo.gears]) | known


# Ticking.


@router.post("/taps")
def taps(game: TheGame, desk: TheDesk, asked: Taps, which: List, of: SetId) -> Answers:
    """Note what was ticked, or not after all; with the first tick a session is opened."""
    *others, last = asked.taps
    answers = [_taken(game, desk, one, which, of) for one in others]
    return Answers(answers=[*answers, _taken(game, desk, last, which, of, is_last=True)])


def _taken(
    game: Game, desk: Desk, one: Tapped, which: Which, of: str, *, is_last: bool = False
) -> Answer:
    try:
        todo = _asked(game, which, of)
        if one.data.step not in todo.boxes:
            refuse(Problem.of("page-set-up.no-step", Where(game.name)))
        editions = [gear.edition for gear in todo.gears]
        session = prepared(desk, editions, forecast_for(desk, game, editions))
        note = tick if one.type == "step.ticked" else untick
        note(desk, session, todo, one.data.step, Tap(one.id, one.device, one.happened_ms))
    except Refused as refused:
        if any(problem.code.startswith("ledger.") for problem in refused.problems):
            raise  # not the tap's fault: its page keeps it and sends it again
        return Answer(id=one.id, problems=[*map(problem_json, refused.problems)])
    return Answer(id=one.id, now=_now(todo, desk.state(session)) if is_last else None)


@router.get("/now")
def now(game: TheGame, desk: TheDesk, which: List, of: SetId) -> Now:
    """Return what is ticked by now, here or on another tablet."""
    todo = _asked(game, which, of)
    return _now(todo, _state(todo, desk))


def _asked(game: Game, which: Which, of: str) -> Checklist:
    """Return the list that a page shows; Refused where another printed set was made since."""
    todo = _todo(game, which)
    if _of(todo.gears) != of:
        refuse(Problem.of("page-set-up.other-set", Where(game.name)))
    return todo


# Pictures for the group that leaves.


@router.get("/tray/{group}", response_class=HTMLResponse)
def count_in(
    request: Request,
    game: TheGame,
    desk: TheDesk,
    group: Annotated[str, Path(max_length=4, pattern=r"^[0-9]+$")],
) -> HTMLResponse:
    """Show a group what belongs into its tray, by pictures and without a code."""
    todo = _todo(game, "reset")
    gear = next((one for one in todo.gears if group in one.edition.groups), None)
    if gear is None:
        raise HTTPException(404)
    values = {
        "game": game,
        "here": _here(game),
        "table": _tables(todo, _state(todo, desk))[group],
        "things": [(one, _called(one)) for one in tray(gear, group)],
        "locks": {id: drawing(device) for id, device in gear.devices[group].items()},
        "marks": {clue: kept.mark for clue, kept in gear.edition.sheets.items()},
        "signs": drawings(),
        "field": FIELD,
    }
    return page(request, "set_up_tray", values)


def _called(one: Counted) -> str:
    return sentence(told(one.name) if isinstance(one.name, Message) else one.name)
