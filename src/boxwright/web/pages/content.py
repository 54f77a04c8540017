"""The lesson's tables as grids with bad rows marked, and its pictures; in and out as files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path as File
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Path, Request, UploadFile
from fastapi.responses import FileResponse, HTMLResponse, Response
from pydantic import BaseModel, Field

from boxwright.build import ALSO, Built
from boxwright.content.listing import Listed, first_row
from boxwright.content.pasted import LARGEST, in_columns, recognise
from boxwright.content.read import KNOWN, SUFFIX
from boxwright.game.clue_references import CONTENT
from boxwright.game.commands import perform
from boxwright.game.pictures import Picture, read_pictures
from boxwright.game.toml_file import decoded
from boxwright.problems import Problem, refuse
from boxwright.web.doing import IfMatch, tag_in
from boxwright.web.errors import problem_json
from boxwright.web.game import Game, TheGame
from boxwright.web.render import page
from boxwright.web.sent import Sent
from boxwright.web.tables import tables_of

router = APIRouter()

SHOWN_ROWS = 200
LONGEST_NAME = 120
TYPES = {"png": "image/png", "jpeg": "image/jpeg", "svg": "image/svg+xml"}
SAFE_ALONE = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox"  # not read by people
)
Name = Annotated[str, Path(max_length=LONGEST_NAME)]
Pasted = Annotated[str, Field(max_length=LARGEST)]


class NewTable(Sent):
    """A new table: of a sort, or as pasted rows tell."""

    name: Annotated[str, Field(min_length=1, max_length=LONGEST_NAME)]
    sort: Annotated[str, Field(max_length=40)]
    text: Pasted = ""


class Rows(Sent):
    """Rows to be put under the columns of a table that is being changed."""

    text: Pasted
    columns: Annotated[tuple[Annotated[str, Field(max_length=200)], ...], Field(max_length=100)]


class Done(BaseModel):
    """Which state the game is in now, and where to go on, if elsewhere."""

    tag: str
    next: str | None = None


@router.get("", response_class=HTMLResponse)
def show(request: Request, game: TheGame) -> HTMLResponse:
    """Show all tables and pictures."""
    pictures, faulty = _pictures(game)
    values = {"game": game, "table": None, "tables": tables_of(game)}
    return page(
        request, "content", values | {"pictures": pictures, "faulty": faulty, "sorts": tuple(KNOWN)}
    )


@router.get("/tables/{name}", response_class=HTMLResponse)
def show_table(request: Request, game: TheGame, name: Name) -> HTMLResponse:
    """Show one table as a grid."""
    table = _table(game, name)
    values = {"game": game, "table": table, "address": _address(game, name)}
    return page(request, "content", values | _laid_out(table))


@router.get("/tables/{name}/file")
def download(game: TheGame, name: Name) -> FileResponse:
    """Return a table as its file."""
    return FileResponse(_table(game, name).path, media_type="text/csv", filename=name)


@router.get("/tables/{name}/marks")
def marks(game: TheGame, name: Name) -> dict[str, list[dict[str, Any]]]:
    """Return what the clues that use a table find wrong with its rows."""
    _table(game, name)
    file = f"{CONTENT}/{name}"
    found = [one for one in _told(game) if one.where.file == file]
    return {"problems": [problem_json(one) for one in found]}


@router.post("/tables")
def begin(game: TheGame, asked: NewTable, if_match: IfMatch = None) -> Done:
    """Make a new table; Refused with every bad row where rows were pasted."""
    if asked.sort not in KNOWN:
        raise HTTPException(422)
    name = asked.name if asked.name.lower().endswith(SUFFIX) else asked.name + SUFFIX
    rows = _recognised(asked.text) if asked.text.strip() else [first_row(asked.sort)]
    return _put(game, name, {"rows": rows}, if_match)


@router.post("/pasted")
def pasted(game: TheGame, asked: Rows) -> dict[str, list[tuple[str, ...]]]:
    """Return pasted rows as cells under the columns of a table."""
    return {"rows": in_columns(asked.text, asked.columns)}


@router.post("/upload")
def upload(
    game: TheGame,
    file: UploadFile,
    name: Annotated[str, Form(max_length=LONGEST_NAME)] = "",
    if_match: IfMatch = None,
) -> Done:
    """Take in a table, or a picture, as a file; under `name` where one is given."""
    data, own = file.file.read(), name or File(file.filename or "").name[:LONGEST_NAME]
    if own.lower().endswith(SUFFIX):
        text = decoded(data, f"{CONTENT}/{own}")
        if isinstance(text, Problem):
            refuse(text)
        return _put(game, own, {"text": text}, if_match)
    args = {"name": own, "data": data}
    return Done(tag=perform(game.history, "picture.put", args, tag_in(if_match)).tag)


@router.get("/pictures/{name}")
def picture(game: TheGame, name: Name) -> Response:
    """Return a picture; it can do nothing but be looked at."""
    found = _pictures(game)[0].get(name)
    if found is None:
        raise HTTPException(404)
    headers = {"Content-Security-Policy": SAFE_ALONE, "Cache-Control": "no-cache"}
    return Response(found.path.read_bytes(), media_type=TYPES[found.format], headers=headers)


def _put(game: Game, name: str, args: Mapping[str, Any], if_match: str | None) -> Done:
    args = {"name": name, **args}
    moment = perform(game.history, "content.put", args, tag_in(if_match), also=ALSO)
    return Done(tag=moment.tag, next=_address(game, name))


def _recognised(text: str) -> list[tuple[str, ...]]:
    """Return the rows of a table that was pasted. Raises Refused with all that is wrong with it."""
    found = recognise(text)
    if found.table is None or found.problems:
        refuse(*found.problems)
    columns = found.table.columns
    return [columns, *(tuple(row[one] for one in columns) for row in found.table.rows)]


def _table(game: Game, name: str) -> Listed:
    found = next((one for one in tables_of(game) if one.name == name), None)
    if found is None:
        raise HTTPException(404)
    return found


def _address(game: Game, name: str) -> str:
    return game.address("content", "tables", name)


def _pictures(game: Game) -> tuple[dict[str, Picture], list[Problem]]:
    key = ("pictures", game.path, game.tag)
    return game.studio.memory.recall(key, lambda: read_pictures(game.path))


def _told(game: Game) -> Iterator[Problem]:
    built = game.built
    if isinstance(built, Built):
        yield from (one.problem for one in built.findings)
    else:
        yield from built


def _laid_out(table: Listed) -> dict[str, Any]:
    """Return the first rows of a table as cells, the rest for the page's script, and its faults."""
    if table.grid is None:
        return {"columns": (), "rows": (), "rest": (), "faults": {}, "loose": table.problems}
    width = max(len(table.grid.columns), *(len(cells) for _, cells in table.grid.rows), 1)
    rows = [(line, _padded(cells, width)) for line, cells in table.grid.rows]
    lines = {line for line, _ in rows}
    faults: dict[int, list[Problem]] = {}
    for one in table.problems:
        if one.where.line in lines:
            faults.setdefault(one.where.line or 0, []).append(one)
    loose = [one for one in table.problems if one.where.line not in lines]
    return {
        "columns": _padded(table.grid.columns, width),
        "rows": rows[:SHOWN_ROWS],
        "rest": [cells for _, cells in rows[SHOWN_ROWS:]],
        "faults": faults,
        "loose": loose,
    }


def _padded(cells: tuple[str, ...], width: int) -> tuple[str, ...]:
    return cells + ("",) * (width - len(cells))
