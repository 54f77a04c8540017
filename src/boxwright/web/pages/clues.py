"""The clues of a game as small sheets, and one at a time on the bench: tried as it is typed."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal
from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Path, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from boxwright.build import ALSO
from boxwright.build.current import current_editions
from boxwright.build.throwing import keep_throw
from boxwright.choose.offers import Offer, offers
from boxwright.choose.one_clue import Trial
from boxwright.choose.store import current
from boxwright.game.commands import perform
from boxwright.game.commands.asked import Code, FileName, Short, Value
from boxwright.game.model import ID_PATTERN, LEVELS, Id, Level, Version
from boxwright.game.union_faults import frozen
from boxwright.problems import Problem, Refused, Where, plain, refuse, say
from boxwright.puzzles.shelf import carried, kind
from boxwright.text import better_id
from boxwright.web import bench as benches
from boxwright.web.bench import Tried, bench_of, pictures_of, tried
from boxwright.web.doing import IfMatch, tag_in
from boxwright.web.game import FIRST, Game, TheGame
from boxwright.web.options_form import fields
from boxwright.web.press import pressed
from boxwright.web.render import fragment, page, told
from boxwright.web.scene import scene_of
from boxwright.web.tables import tables_of

router = APIRouter()

OTHER = "/-"  # no clue is called that
MOST_THROWS = 9999
# An address has the game's state in it, so what it leads to stays.
FOR_A_DAY = {"Cache-Control": "private, max-age=86400, immutable"}  # not read by people
InPath = Annotated[str, Path(pattern=ID_PATTERN)]
Hint = Annotated[str, Field(min_length=1, max_length=4000)]


class Asked(BaseModel):
    """What a page sends: nothing that it does not name."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class NewClue(Asked):
    """What a new clue gives, what pupils do at it, and what it draws on."""

    gives: Id
    kind: Id
    content: FileName | None = None
    place: Annotated[str, Field(max_length=60)] = "start"


class Draft(Asked):
    """A way as it is being typed; `shows` is the kind whose fields the page has."""

    kind: Id
    level: Level | None = None
    content: FileName | Annotated[dict[Id, FileName], Field(max_length=20)] | None = None
    options: Annotated[dict[Short, Value], Field(max_length=40)] = {}
    hints: tuple[Hint, Hint, Hint] | None = None
    code: Code | None = None
    throw: Annotated[int, Field(ge=0, le=MOST_THROWS)] | None = None
    shows: Id | None = None

    def trial(self) -> Trial:
        """Return the draft as what is tried."""
        options = frozen(self.options)
        return Trial(
            self.kind, self.level, self.content, options, self.hints, self.code, self.throw
        )


class Another(Asked):
    """Another way, like the one at hand, for a level or for other rooms."""

    for_: Annotated[Level | Literal["room"], Field(alias="for")]
    rooms: Annotated[str, Field(max_length=40)] = ""


class Named(Asked):
    """What a way is to be called."""

    name: Annotated[str, Field(min_length=1, max_length=40)]


class Throw(Asked):
    """How often a sheet was thrown anew."""

    throw: Annotated[int, Field(ge=0, le=MOST_THROWS)]


class Drawn(BaseModel):
    """One pupils' page as it will print: the name of the part, what it shows, the picture."""

    part: str
    alt: str
    svg: str


class Shown(BaseModel):
    """What comes of a draft: pages and what is known of them, or problems beside their fields.

    `fields` are those of another kind than the page shows; `throw` is which throw this is.
    """

    pages: list[Drawn] = []
    about: str = ""
    problems: list[dict[str, Any]] = []
    fields: str | None = None
    throw: int = 0


class Next(BaseModel):
    """Where to go on."""

    next: str


class Said(BaseModel):
    """What was done, in words."""

    said: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way of a clue, as a card shows it."""

    name: str
    level: Level | None
    kind: str
    rooms: tuple[str, ...]
    facilities: tuple[str, ...]
    address: str
    sheets: str


# All clues.


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show all clues."""
    scene = scene_of(game)
    listed = [
        (id, scene.name(clue.gives), scene.way(id), list(_ways(game, id)))
        for id, clue in game.folder.game.clues.items()
    ]
    values = {"game": game, "clues": listed, "bench": None, "givable": list(_givable(game))}
    return page(request, "clues", values | _adding(game))


def _adding(game: Game) -> dict[str, Any]:
    boxes = ((id, box.name) for id, box in game.folder.game.boxes.items())
    scene = scene_of(game)
    spots = ((one, scene.name(one)) for one in ("start", "table"))
    return {"tables": _tables(game), "places": [*spots, *boxes]}


def _tables(game: Game) -> list[tuple[str, str]]:
    """Return the files in content/, each with what sort of table it is, in words."""
    return [
        (file, told(say("page-clues.table-file", file=file, table=say(f"page-clues.table-{sort}"))))
        if sort
        else (file, file)
        for file, sort in tables_of(game).items()
    ]


def _givable(game: Game) -> Iterator[tuple[str, str]]:
    """Yield what a clue can lead to: locks that have a code, and things in places with a word."""
    scene = scene_of(game)
    for id, lock in game.folder.game.locks.items():
        if lock.mechanism != "key":
            yield id, scene.name(id)
    for id in game.folder.game.items:
        yield id, scene.name(id)


@router.post("")
def add(game: TheGame, asked: NewClue, if_match: IfMatch = None) -> Next:
    """Add a clue, and go on to its bench."""
    args = asked.model_dump(exclude_none=True)
    moment = perform(game.history, "clue.add", args, tag_in(if_match), also=ALSO)
    assert moment.undo is not None, "what was just done can be undone"
    return Next(next=game.address("clues", str(moment.undo.args["id"])))


@router.get(f"{OTHER}/offers", response_class=HTMLResponse)
def offered(
    game: TheGame,
    gives: Annotated[str, Query(max_length=60)],
    code: Annotated[str | None, Query(max_length=2000)] = None,
    chosen: Annotated[str | None, Query(max_length=40)] = None,
) -> HTMLResponse:
    """Return what pupils could do: each kind, what it takes, whether it can carry such codes."""
    if gives not in dict(_givable(game)) and gives not in _places(game):
        raise HTTPException(404)
    try:
        found = offers(game.folder, gives, code, game.chance)
        values: dict[str, Any] = {"offers": [_offer(game, one) for one in found], "problems": ()}
    except Refused as refused:
        values = {"offers": [], "problems": refused.problems}
    return _piece("clues_offers.html", values | {"chosen": chosen})


def _places(game: Game) -> Mapping[str, Any]:
    room = game.folder.room
    return {} if room is None else room.places


def _offer(game: Game, one: Offer) -> dict[str, Any]:
    facts = one.kind.FACTS
    needs = [need.table for need in facts.content]
    return {
        "name": one.name,
        "carries": one.carries,
        "facts": facts,
        "can": carried(one.kind),
        "uses": tuple(say(f"suggest.use-{use}") for use in sorted(facts.uses)),
        "needs": [(table, table in tables_of(game).values()) for table in needs],
    }


# One clue.


@router.get("/{clue}", response_class=HTMLResponse)
def at_first(request: Request, game: TheGame, clue: InPath) -> HTMLResponse:
    """Show the bench with the way of a clue that is done now."""
    if clue not in game.folder.game.clues:
        raise HTTPException(404)
    return bench(request, game, clue, scene_of(game).way(clue))


@router.get("/{clue}/{way}", response_class=HTMLResponse)
def bench(request: Request, game: TheGame, clue: InPath, way: InPath) -> HTMLResponse:
    """Show the bench with one way of a clue."""
    version, one = _version(game, clue, way), game.folder.game.clues[clue]
    lock = game.folder.game.locks.get(one.gives)
    values = {
        "game": game,
        "bench": clue,
        "way": way,
        "gives": one.gives,
        "gives_said": scene_of(game).name(one.gives),
        "goals": [game.folder.game.goals[goal] for goal in one.goals],
        "lock": lock,
        "version": version,
        "ways": list(_ways(game, clue)),
        "saved": json.dumps(_saved(version) | ({} if lock is None else {"code": lock.code})),
        "tables": _tables(game),
        "levels": LEVELS,
        "places": list(_places_for(game, clue, version)),
        "throwable": _throwable(game, clue, way),
        "consequences": {
            name: tuple(scene_of(game).name(id) for id in getattr(version, name))
            for name in ("needs", "adds", "drops")
        },
        "address": game.address,
        "room": game.folder.room,
    }
    return page(request, "clues", values | _fields(game, version.kind, version.options, version))


def _version(game: Game, clue: str, way: str) -> Version:
    try:
        return benches.version_of(game, clue, way)
    except KeyError:
        raise HTTPException(404) from None


def _saved(version: Version) -> dict[str, Any]:
    """Return a way's fields as they stand, for the script to tell what was changed."""
    named = ("kind", "level", "content", "options", "place", "parts", "hints", "rooms")
    return {name: plain(getattr(version, name)) for name in (*named, "facilities")}


def _ways(game: Game, clue: str) -> Iterator[Way]:
    for name, one in game.folder.game.clues[clue].versions.items():
        address, sheets = game.address("clues", clue, name), _stamped(game, clue, name, "sheets")
        yield Way(name, one.level, one.kind, one.rooms, one.facilities, address, sheets)


def _stamped(game: Game, *steps: str) -> str:
    """Return an address that another state of the game does not have, to be remembered by."""
    address = game.address("clues", *steps)
    stamp = "-".join((game.tag, *map(str, game.printed_at)))
    return f"{address}{'&' if '?' in address else '?'}of={quote(stamp, safe='')}"


def _places_for(game: Game, clue: str, version: Version) -> Iterator[tuple[str, str]]:
    """Yield where a sheet may lie, as JSON, and in words; where it lies now is among them."""
    scene = scene_of(game)
    found = {json.dumps(one): scene.name(one) for one in scene.targets(clue)}
    for one in (version.place, *version.parts.values()):
        wishes = (one,) if isinstance(one, str) else one
        said = tuple(scene.name(wish) for wish in wishes)
        found.setdefault(json.dumps(plain(one)), told(say("page-clues.first-of", places=said)))
    yield from found.items()


def _throwable(game: Game, clue: str, way: str) -> bool:
    """Tell whether other dice can be kept for a way: it is printed, or nothing is yet."""
    made = current(game.path)
    return made is None or _printed_way(game, clue) == way


def _printed_way(game: Game, clue: str) -> str | None:
    """Return the way of a clue that the printed set has."""
    found = (one.chosen.get(clue) for one in current_editions(game.path))
    return next((way for way in found if way is not None), None)


def _fields(game: Game, name: str, options: Mapping[str, Any], version: Version) -> dict[str, Any]:
    facts = kind(name).FACTS
    return {
        "kind": name,
        "facts": facts,
        "fields": fields(name, options, game.folder.pictures),
        "apart": [part.name for part in facts.parts if part.apart],
        "parts": {part: json.dumps(plain(place)) for part, place in version.parts.items()},
    }


@router.get("/{clue}/{way}/sheets", response_class=HTMLResponse)
async def sheets(game: TheGame, clue: InPath, way: InPath) -> HTMLResponse:
    """Return a way's pupils' pages, small, or what keeps it from being made."""
    _version(game, clue, way)
    try:
        found = await pressed(lambda: pictures_of(game, clue, way))
        pages = [
            (_stamped(game, clue, way, "sheets", f"{at}.png"), alt)
            for at, (_, alt) in enumerate(found, 1)
        ]
        return _piece("clues_sheets.html", {"pages": pages, "problems": ()})
    except Refused as refused:
        problems = [benches.with_titles(one) for one in refused.problems]
        return _piece("clues_sheets.html", {"pages": [], "problems": problems})


@router.get("/{clue}/{way}/sheets/{number}.png", response_class=Response)
async def picture(
    game: TheGame, clue: InPath, way: InPath, number: Annotated[int, Path(ge=1, le=20)]
) -> Response:
    """Return one small picture of a way's pupils' pages."""
    _version(game, clue, way)
    found = await pressed(lambda: pictures_of(game, clue, way))
    if number > len(found):
        raise HTTPException(404)
    return Response(found[number - 1][0], media_type="image/png", headers=FOR_A_DAY)


# Trying.


@router.post("/{clue}/{way}/try")
async def attempt(game: TheGame, clue: InPath, way: InPath, draft: Draft) -> Response:
    """Return the sheet that comes of a draft, as it will print; nothing is kept."""
    version = _version(game, clue, way)
    shown = await pressed(lambda: _attempted(game, clue, way, draft, version))
    return _unzipped(shown)


def _attempted(game: Game, clue: str, way: str, draft: Draft, version: Version) -> Shown:
    extra = _fields_of(game, clue, draft, version)
    try:
        one = tried(game, clue, way, draft.trial())
        svgs = one.drawn_pages("svg")
    except Refused as refused:
        told_of = benches.told(refused.problems, bench_of(game, clue, way))
        return Shown(problems=told_of, fields=extra)
    return Shown(
        pages=[
            Drawn(part=_part(one, shown.part), alt=shown.alt, svg=svg.decode())
            for shown, svg in zip(one.pages(), svgs, strict=True)
        ],
        about=fragment("clues_about.html", {"one": one}),
        fields=extra,
        throw=one.printing.edition.sheets[clue].throw,
    )


def _part(one: Tried, name: str) -> str:
    """Return what a part is called where a sheet has several; empty where it is the only one."""
    return told(say("page-clues.part", name=name)) if len(one.pages()) > 1 else ""


def _fields_of(game: Game, clue: str, draft: Draft, version: Version) -> str | None:
    """Return the fields for another kind than the page shows."""
    if draft.shows in (None, draft.kind):
        return None
    try:
        values = _fields(game, draft.kind, draft.options, version)
    except Refused:
        return None
    places = list(_places_for(game, clue, version))
    return fragment("clues_fields.html", values | {"places": places})


def _unzipped(shown: Shown) -> Response:
    """Return the answer as it is: on one's own machine, packing takes longer than sending."""
    headers = {"Cache-Control": "no-store", "Content-Encoding": "identity"}
    return Response(shown.model_dump_json(), media_type="application/json", headers=headers)


@router.post("/{clue}/{way}/fits")
async def fits(game: TheGame, clue: InPath, way: InPath, draft: Draft) -> Shown:
    """Return what of a draft's pages does not fit its paper: slower, hence asked for after."""
    _version(game, clue, way)

    def misfits() -> list[dict[str, Any]]:
        try:
            problems = tuple(tried(game, clue, way, draft.trial()).misfits())
        except Refused:
            return []  # told by the trial itself
        return benches.told(problems, bench_of(game, clue, way))

    return Shown(problems=await pressed(misfits))


@router.post("/{clue}/{way}/throw")
def throw(game: TheGame, clue: InPath, way: InPath, asked: Throw, if_match: IfMatch = None) -> Said:
    """Keep another throw of a sheet: in the printed set, or for the first one."""
    _version(game, clue, way)
    game.history.expect(tag_in(if_match))
    made = keep_throw(game.path, clue, asked.throw, FIRST)
    return Said(said=told(say("page-clues.thrown" if made else "page-clues.thrown-to-come")))


@router.post("/{clue}/{way}/another")
def another(
    game: TheGame, clue: InPath, way: InPath, asked: Another, if_match: IfMatch = None
) -> Next:
    """Add a way that begins as a copy of the one at hand."""
    like = _version(game, clue, way).model_dump(exclude_unset=True, exclude={"level", "rooms"})
    rooms = tuple(better_id(one) for one in asked.rooms.split(",") if one.strip())
    more: dict[str, Any] = {"level": asked.for_}
    if asked.for_ == "room":
        if not rooms:
            refuse(Problem.of("page-clues.no-room", Where("another", ("rooms",))))
        more = {"rooms": rooms, "name": rooms[0], "level": _version(game, clue, way).level}
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


def _piece(name: str, values: dict[str, Any]) -> HTMLResponse:
    return HTMLResponse(fragment(name, values), headers={"Cache-Control": "no-store"})
