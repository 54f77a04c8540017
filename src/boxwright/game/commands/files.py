"""The teacher's tables and pictures: put in, named otherwise, taken out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any

from pydantic import Field, StringConstraints

from boxwright.game.clue_references import CONTENT
from boxwright.game.commands.asked import Asked, FileName
from boxwright.game.commands.command import Command
from boxwright.game.commands.desk import Desk
from boxwright.game.csv_form import LARGEST, from_rows, from_text
from boxwright.game.draft import GAME
from boxwright.game.file_names import is_portable
from boxwright.game.inside import listed
from boxwright.game.pictures import PICTURES
from boxwright.game.safe_pictures import safe_picture
from boxwright.problems import Message, Path, Problem, Where, refuse, say
from boxwright.text import nfc

SUFFIX = ".csv"
Cell = Annotated[str, StringConstraints(max_length=4000)]
Row = Annotated[tuple[Cell, ...], Field(max_length=100)]


class ContentPut(Asked):
    """A table: as the text of its CSV, or row by row, the first being the names of columns."""

    name: FileName
    text: Annotated[str, StringConstraints(max_length=LARGEST)] | None = None
    rows: Annotated[tuple[Row, ...], Field(max_length=5001)] | None = None


class FileRemove(Asked):
    """A file that goes."""

    name: FileName


class ContentRename(Asked):
    """Another name for a table, also where clues name it."""

    name: FileName
    new: FileName


class PicturePut(Asked):
    """A picture, as the bytes of its file."""

    name: FileName
    data: bytes


def _put(desk: Desk, asked: ContentPut) -> Message:
    name = _new_name(desk, CONTENT, asked.name)
    if not name.lower().endswith(SUFFIX):
        refuse(Problem.of("content.no-csv", Where(f"{CONTENT}/{name}", ("name",)), name=name))
    if (asked.text is None) == (asked.rows is None):
        refuse(Problem.of("change.text-or-rows", Where("content.put", ("rows",))))
    like = _bytes(desk, CONTENT, name)
    data = (
        from_rows(asked.rows, like) if asked.rows is not None else from_text(asked.text or "", like)
    )
    desk.put(f"{CONTENT}/{name}", data)
    return say("change.content-put", id=name)


def _bytes(desk: Desk, folder: str, name: str) -> bytes:
    """Return what the file `name` holds; nothing where there is none."""
    found = listed(desk.folder / folder).get(name)
    try:
        return b"" if found is None else (desk.folder / folder / found).read_bytes()
    except OSError as error:
        where, why = Where(f"{folder}/{name}"), error.strerror or str(error)
        refuse(Problem.of("folder.unreadable", where, name=name, why=why))


def _new_name(desk: Desk, folder: str, name: str, old: str | None = None) -> str:
    """Return `name` as a file's; it may be there already, but under no other capitals."""
    name, where = nfc(name), Where(f"{folder}/", ("name" if old is None else "new",))
    if not is_portable(name):
        refuse(Problem.of("change.file-name", where, name=name))
    for one in listed(desk.folder / folder):
        if one != old and one.casefold() == name.casefold() and (one != name or old is not None):
            refuse(Problem.of("change.file-taken", where, name=name, other=one))
    return name


def _known(desk: Desk, folder: str, name: str) -> str:
    """Return the name of a file in `folder` as the disk spells it."""
    names = {key: one for key, one in listed(desk.folder / folder).items() if is_portable(key)}
    if nfc(name) not in names:
        choices = tuple(names) or (say("game.none-yet"),)
        where = Where(f"{folder}/", ("name",))
        refuse(Problem.of("change.no-file", where, name=name, folder=folder, choices=choices))
    return names[nfc(name)]


def _remove(desk: Desk, asked: FileRemove) -> Message:
    name = _known(desk, CONTENT, asked.name)
    _hold_unused(desk, asked.name, [path for path, _, _ in _content_uses(desk, asked.name)])
    desk.put(f"{CONTENT}/{name}", None)
    return say("change.file-removed", id=asked.name)


def _content_uses(desk: Desk, name: str) -> Iterator[tuple[Path, Any, str]]:
    """Yield each use of a table: its path, the table that holds it, and under which key."""
    for path, version in _versions(desk):
        content = version.get("content")
        if content == name:
            yield (*path, "content"), version, "content"
        for key, one in content.items() if isinstance(content, dict) else ():
            if one == name:
                yield (*path, "content", key), content, key


def _versions(desk: Desk) -> Iterator[tuple[Path, dict[str, Any]]]:
    for id, clue in desk.table(GAME, "clues").items():
        for key, version in clue.get("versions", {}).items():
            yield ("clues", id, "versions", key), version


def _hold_unused(desk: Desk, name: str, paths: list[Path]) -> None:
    if paths:
        places = [desk.file(GAME).where(path) for path in paths]
        lines = tuple(one.line or 0 for one in places)
        refuse(Problem.of("change.file-used", places[0], name=name, lines=lines))


def _rename(desk: Desk, asked: ContentRename) -> Message:
    old = _known(desk, CONTENT, asked.name)
    new = _new_name(desk, CONTENT, asked.new, nfc(asked.name))
    if not new.lower().endswith(SUFFIX) and asked.name.lower().endswith(SUFFIX):
        refuse(Problem.of("content.no-csv", Where(f"{CONTENT}/{new}", ("new",)), name=new))
    desk.put(f"{CONTENT}/{new}", _bytes(desk, CONTENT, nfc(asked.name)))
    if old != new:
        desk.put(f"{CONTENT}/{old}", None)
    for _, holder, key in list(_content_uses(desk, asked.name)):
        holder[key] = new
    return say("change.renamed", id=new, old=asked.name)


def _put_picture(desk: Desk, asked: PicturePut) -> Message:
    name = _new_name(desk, PICTURES, asked.name)
    data = safe_picture(name, asked.data)
    if isinstance(data, Problem):
        refuse(data)
    desk.put(f"{PICTURES}/{name}", data)
    return say("change.picture-put", id=name)


def _remove_picture(desk: Desk, asked: FileRemove) -> Message:
    name = _known(desk, PICTURES, asked.name)
    used = [
        (*path, "options")
        for path, version in _versions(desk)
        if _holds(version.get("options", {}), asked.name)
    ]
    _hold_unused(desk, asked.name, used)
    desk.put(f"{PICTURES}/{name}", None)
    return say("change.file-removed", id=asked.name)


def _holds(value: Any, name: str) -> bool:
    """Tell whether `name` stands anywhere in `value`."""
    if isinstance(value, dict | list):
        inner = value.values() if isinstance(value, dict) else value
        return any(_holds(one, name) for one in inner)
    return bool(value == name)


COMMANDS = (
    Command("content.put", ContentPut, _put),
    Command("content.rename", ContentRename, _rename),
    Command("content.remove", FileRemove, _remove),
    Command("picture.put", PicturePut, _put_picture),
    Command("picture.remove", FileRemove, _remove_picture),
)
