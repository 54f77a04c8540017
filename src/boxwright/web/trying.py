"""A clue's way tried as it is typed, kept with other dice, copied, and called otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Path
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, Field

from boxwright.build import ALSO
from boxwright.build.throwing import keep_throw
from boxwright.choose.one_clue import Trial
from boxwright.choose.other_kind import MadeOver
from boxwright.game.commands import perform
from boxwright.game.commands.asked import Code, FileName, Short, Value
from boxwright.game.model import ID_PATTERN, Id, Level
from boxwright.game.union_faults import frozen
from boxwright.problems import Problem, Refused, Where, plain, refuse, say
from boxwright.text import better_id
from boxwright.web.bench import Tried, bench_of, made_over, told_at_fields, tried, version_of
from boxwright.web.clue_values import fields_of
from boxwright.web.doing import IfMatch, tag_in
from boxwright.web.game import FIRST, Game, TheGame
from boxwright.web.press import pressed
from boxwright.web.render import fragment, told
from boxwright.web.sent import Next, Said, Sent

router = APIRouter()

MOST_THROWS = 9999
InPath = Annotated[str, Path(pattern=ID_PATTERN)]
Hint = Annotated[str, Field(min_length=1, max_length=4000)]


class Draft(Sent):
    """A way as it is being typed.

    `shows` is the kind whose fields the page has, `options_of` the kind that its content and
    options were chosen for, if that is another.
    """

    kind: Id
    level: Level | None = None
    content: FileName | Annotated[dict[Id, FileName], Field(max_length=20)] | None = None
    options: Annotated[dict[Short, Value], Field(max_length=40, default_factory=dict)]
    hints: tuple[Hint, Hint, Hint] | None = None
    code: Code | None = None
    throw: Annotated[int, Field(ge=0, le=MOST_THROWS)] | None = None
    shows: Id | None = None
    options_of: Id | None = None

    def trial(self) -> Trial:
        """Return the draft as what is tried."""
        options = frozen(self.options)
        return Trial(
            self.kind, self.level, self.content, options, self.hints, self.code, self.throw
        )


class Another(Sent):
    """Another way, like the one at hand, for a level or for other rooms."""

    for_: Annotated[Level | Literal["room"], Field(alias="for")]
    rooms: Annotated[str, Field(max_length=40)] = ""


class Named(Sent):
    """What a way is to be called."""

    name: Annotated[str, Field(min_length=1, max_length=40)]


class Throw(Sent):
    """How often a sheet was thrown anew."""

    throw: Annotated[int, Field(ge=0, le=MOST_THROWS)]


class Drawn(BaseModel):
    """One pupils' page as it will print: the name of the part, what it shows, the picture."""

    part: str
    alt: str
    svg: str


class Shown(BaseModel):
    """What comes of a draft: pages, or problems beside their fields.

    `fields` are those of another kind than the page shows; `throw` is which throw this is.
    """

    pages: list[Drawn] = []
    problems: list[dict[str, Any]] = []
    fields: str | None = None
    throw: int = 0


@router.post("/{clue}/{way}/try")
async def attempt(game: TheGame, clue: InPath, way: InPath, draft: Draft) -> Response:
    """Return the sheet that comes of a draft, as it will print; nothing is kept."""
    version_of(game, clue, way)
    shown = await pressed(lambda: _attempted(game, clue, way, draft))
    return _unzipped(shown)


def _attempted(game: Game, clue: str, way: str, draft: Draft) -> Shown:
    trial = draft.trial()
    if draft.options_of not in (None, draft.kind):
        trial = made_over(game, clue, way, trial)
    extra = _fields(game, clue, way, trial) if draft.shows not in (None, draft.kind) else None
    try:
        one = tried(game, clue, way, trial)
        svgs = one.drawn_pages("svg")
    except Refused as refused:
        told_of = told_at_fields(refused.problems, bench_of(game, clue, way))
        return Shown(problems=told_of, fields=extra)
    return Shown(
        pages=[
            Drawn(part=_part(one, shown.part), alt=shown.alt, svg=svg.decode())
            for shown, svg in zip(one.pages(), svgs, strict=True)
        ],
        fields=extra,
        throw=one.printing.edition.sheets[clue].throw,
    )


def _part(one: Tried, name: str) -> str:
    """Return what a part is called where a sheet has several; empty where it is the only one."""
    return told(say("page-clues.part", name=name)) if len(one.pages()) > 1 else ""


def _fields(game: Game, clue: str, way: str, trial: Trial) -> str | None:
    """Return the fields of the kind that is tried; None where there is no such kind."""
    version, says = version_of(game, clue, way), MadeOver(trial.content, trial.options)
    try:
        values = fields_of(game, clue, version, trial.kind, says)
    except Refused:
        return None
    return fragment("clues_fields.html", values)


def _unzipped(shown: Shown) -> Response:
    """Return the answer as it is: on one's own machine, packing takes longer than sending."""
    headers = {"Cache-Control": "no-store", "Content-Encoding": "identity"}
    return Response(shown.model_dump_json(), media_type="application/json", headers=headers)


@router.post("/{clue}/{way}/about", response_class=HTMLResponse)
async def about(game: TheGame, clue: InPath, way: InPath, draft: Draft) -> HTMLResponse:
    """Return what a teacher wants to know of a draft's sheet; nothing where there is none."""
    version_of(game, clue, way)

    def told_of() -> str:
        try:
            one = tried(game, clue, way, draft.trial())
            return fragment("clues_about.html", {"one": one})
        except Refused:
            return ""  # told by the trial itself

    return HTMLResponse(await pressed(told_of), headers={"Cache-Control": "no-store"})


@router.post("/{clue}/{way}/fits")
async def fits(game: TheGame, clue: InPath, way: InPath, draft: Draft) -> Shown:
    """Return what of a draft's pages does not fit its paper: slower, hence asked for after."""
    version_of(game, clue, way)

    def misfits() -> list[dict[str, Any]]:
        try:
            problems = tuple(tried(game, clue, way, draft.trial()).misfits())
        except Refused:
            return []  # told by the trial itself
        return told_at_fields(problems, bench_of(game, clue, way))

    return Shown(problems=await pressed(misfits))


@router.post("/{clue}/{way}/throw")
def throw(game: TheGame, clue: InPath, way: InPath, asked: Throw, if_match: IfMatch = None) -> Said:
    """Keep another throw of a sheet: in the printed set, or for the first one."""
    version_of(game, clue, way)
    game.history.expect(tag_in(if_match))
    made = keep_throw(game.path, clue, asked.throw, FIRST)
    return Said(said=told(say("page-clues.thrown" if made else "page-clues.thrown-to-come")))


@router.post("/{clue}/{way}/another")
def another(
    game: TheGame, clue: InPath, way: InPath, asked: Another, if_match: IfMatch = None
) -> Next:
    """Add a way that begins as a copy of the one at hand."""
    like = version_of(game, clue, way).model_dump(exclude_unset=True, exclude={"level", "rooms"})
    rooms = tuple(better_id(one) for one in asked.rooms.split(",") if one.strip())
    more: dict[str, Any] = {"level": asked.for_}
    if asked.for_ == "room":
        if not rooms:
            refuse(Problem.of("page-clues.no-room", Where("another", ("rooms",))))
        more = {"rooms": rooms, "name": rooms[0], "level": version_of(game, clue, way).level}
    args = {"clue": clue, **plain(like), **more}
    given = {name: value for name, value in args.items() if value is not None}
    return _way_made(game, clue, "version.add", given, tag_in(if_match))


@router.post("/{clue}/{way}/name")
def name(game: TheGame, clue: InPath, way: InPath, asked: Named, if_match: IfMatch = None) -> Next:
    """Give a way another name."""
    args = {"clue": clue, "version": way, "name": asked.name}
    return _way_made(game, clue, "version.rename", args, tag_in(if_match))


def _way_made(game: Game, clue: str, command: str, args: Mapping[str, Any], tag: str) -> Next:
    """Perform a command that makes or names a way, and go on to the bench of that way."""
    moment = perform(game.history, command, args, tag, also=ALSO)
    changed = moment.undo is not None and moment.tag != game.tag
    way = str(moment.undo.args["id"]) if moment.undo and changed else str(args["version"])
    return Next(next=game.address("clues", clue, way))
